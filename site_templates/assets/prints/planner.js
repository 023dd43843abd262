/* Twin of seamleaf/planning/prints/planner.py and report.py: from the squares to the pieces in every block.

   The task is the one of the booklet's "prints"; bundles holds the squares of each bundle fabric, {lab, spread, squares},
   and grounds the CIELAB values of the other fabrics. */
(function (prints) {
  "use strict";

  const { FAMILIES } = prints.colour;

  /* What there is to say of a layout: the block at each cell, with a lower bound of its like neighbours. */
  function reportOn(floor, blocks, all, bound) {
    const shared = (pairs) => pairs.reduce((sum, [a, b]) => {
      const there = new Set(blocks[b]);
      return sum + Array.from(new Set(blocks[a])).filter((one) => there.has(one)).length;
    }, 0);
    const clear = blocks.filter((block) => block.every((one, index) => block.slice(0, index).every(
      (other) => one !== other && prints.pairs.hasContrast(all[one], all[other]))));
    const families = FAMILIES.map((name, family) => {
      const cells = Array.from(blocks.keys()).filter((cell) => blocks[cell].some((one) => all[one].family === family));
      return {
        family: name,
        blocks: cells.length,
        quarters: [0, 1, 2, 3].map((at) => cells.reduce((sum, cell) => sum + floor.quarters[cell][at], 0)),
      };
    });
    return {
      like_edge: shared(floor.edges),
      like_corner: shared(floor.corners),
      like_bound: bound,
      contrasting: clear.length,
      families: families.filter((each) => each.blocks),
    };
  }

  function plan(task, bundles, grounds) {
    const fabrics = Object.keys(task.bundles);

    function groundsOf(unit, fabric, role) {
      return task.roles[unit].filter((each) => each.fabric === fabric && each.print === role)
        .flatMap((each) => each.grounds).map((ground) => grounds[ground]);
    }

    const choices = {};
    fabrics.forEach((fabric) => {
      choices[fabric] = prints.choice.choose(bundles[fabric], task.bundles[fabric].map((sheet) => ({
        pieces: sheet.times,
        grounds: sheet.serves.flatMap(([unit, role]) => groundsOf(unit, fabric, role)),
      })));
    });

    /* ---- number the prints that are used; colours that pass for each other are one, of whatever fabric ---- */
    const colours = fabrics.flatMap((fabric) => bundles[fabric].map((square, colour) => ({
      key: fabric + ":" + colour, lab: square.lab, used: choices[fabric].pieces.includes(colour),
    })));
    const first = prints.choice.printsOf(colours);
    const firsts = Array.from(new Set(first.filter((_, at) => colours[at].used))).sort((a, b) => a - b);
    const all = firsts.map((index) => prints.pairs.printOf(colours[index].lab));
    const numbers = new Map(colours.map((colour, at) => [colour.key, firsts.indexOf(first[at])]));
    const shownBy = {};
    fabrics.forEach((fabric) => {
      shownBy[fabric] = new Map(choices[fabric].pieces.map(
        (colour, at) => [at + 1, numbers.get(fabric + ":" + colour)]));
    });

    /* ---- pair and lay out ---- */
    function usesOf(unit, blocks) {
      return task.roles[unit].map((role) => {
        const capacity = new Map();
        const others = new Map();
        let piece = 0;
        task.bundles[role.fabric].forEach((sheet) => {
          for (let time = 0; time < sheet.times; time += 1) {
            piece += 1;
            sheet.serves.forEach(([served, print]) => {
              const to = served === unit && print === role.print ? capacity : others;
              to.set(piece, (to.get(piece) || 0) + 1);
            });
          }
        });
        return prints.handout.evenUses(capacity, blocks, others);
      });
    }

    function pairOf(unit, blocks) {
      return prints.pairs.pairPrints(usesOf(unit, blocks).map((uses, role) => {
        const shown = shownBy[task.roles[unit][role].fabric];
        const counts = new Map();
        uses.forEach((times, piece) => counts.set(shown.get(piece), (counts.get(shown.get(piece)) || 0) + times));
        return counts;
      }), all);
    }

    function contrastOf(unit, block) {
      const lights = task.roles[unit].flatMap((role, at) => role.grounds.map(
        (ground) => prints.choice.lightContrast({ lab: all[block[at]].lab, spread: 0 }, grounds[ground])));
      return lights.length ? Math.min(...lights) : prints.conventions.bold;
    }

    function printsOf(unit, pieces) {
      return task.roles[unit].map((role, at) => shownBy[role.fabric].get(pieces[at]));
    }

    const pieces = new Map(task.cells.map(([place]) => [place, []]));
    const result = { choices: choices, prints: all, pieces: pieces, printsOf: printsOf, layout: null };
    if (!task.cells.length) {
      return result;
    }
    const floor = prints.floor.floorOf(task);
    const cells = new Map();
    floor.cells.forEach((cell, number) => cells.set(cell.kind, (cells.get(cell.kind) || []).concat(number)));
    let blocks = floor.cells.map(() => []);
    cells.forEach((of, unit) => pairOf(unit, of.length).forEach((block, at) => { blocks[of[at]] = block; }));
    const contrasts = blocks.map((block, number) => contrastOf(floor.cells[number].kind, block));
    const objective = prints.objective.objectiveOf(floor, blocks, all, contrasts);
    const layout = prints.annealing.anneal(objective, prints.annealing.layAsRead(objective, []), task.seed, []);
    blocks = layout.map((look) => objective.looks[look].block);
    cells.forEach((of, unit) => {
      const uses = usesOf(unit, of.length);
      fabrics.forEach((fabric) => {
        const roles = Array.from(task.roles[unit].keys()).filter((at) => task.roles[unit][at].fabric === fabric);
        const dealt = prints.handout.handOut(
          of.map((number) => roles.map((role) => blocks[number][role])), roles.map((role) => uses[role]),
          shownBy[fabric]);
        of.forEach((number, at) => pieces.get(floor.cells[number].place).push(...dealt[at]));
      });
      of.forEach((number) => { blocks[number] = printsOf(unit, pieces.get(floor.cells[number].place)); });
    });
    const bound = prints.floor.leastLikeNeighbours(floor, blocks);

    /* Lay the blocks out anew round those of some places, and return where each place takes its pieces from. */
    function around(now, held) {
      const shown = floor.cells.map(({ kind, place }) => printsOf(kind, now.get(place)));
      const light = shown.map((block, number) => contrastOf(floor.cells[number].kind, block));
      const other = prints.objective.objectiveOf(floor, shown, all, light);
      const fixed = Array.from(floor.cells.keys()).filter((number) => held.includes(floor.cells[number].place));
      const found = prints.annealing.anneal(other, prints.annealing.layAsRead(other, fixed), task.seed, fixed);
      const free = new Set(floor.cells.keys());
      const from = new Map();
      const take = (number, source) => {
        free.delete(source);
        from.set(floor.cells[number].place, floor.cells[source].place);
      };
      found.forEach((look, number) => { if (other.start[number] === look) { take(number, number); } });
      found.forEach((look, number) => {
        if (other.start[number] !== look) {
          take(number, Array.from(free).find((source) => other.start[source] === look
            && floor.cells[source].kind === floor.cells[number].kind));
        }
      });
      return from;
    }

    return Object.assign(result, {
      floor: floor,
      around: around,
      cost: objective.cost(layout),
      report: (shown) => reportOn(floor, shown, all, bound),
      blocks: blocks,
      layout: reportOn(floor, blocks, all, bound),
    });
  }

  prints.plan = plan;
})(window.seamleafPrints = window.seamleafPrints || {});
