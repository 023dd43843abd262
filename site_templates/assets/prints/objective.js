/* Twin of seamleaf/planning/prints/objective.py: what a layout costs, by what blocks share and how near they are. */
(function (prints) {
  "use strict";

  const PRINT = 0;
  const FAMILY = 1;
  const EXTREME = 2;
  const FAINT = 3;
  const NOTHING = { edge: 0, corner: 0, near: 0, outer: 0, line: 0, quadrant: 0 };

  function weights() {
    const c = prints.conventions;
    return [
      { edge: c.like_edge, corner: c.like_corner, near: c.like_near, outer: 0, line: 0, quadrant: 0 },
      {
        edge: c.family_edge, corner: c.family_corner, near: 0, outer: c.family_outer, line: c.family_line,
        quadrant: c.family_quadrant,
      },
      { edge: c.extreme_touch, corner: c.extreme_touch, near: 0, outer: 0, line: 0, quadrant: c.extreme_quadrant },
      Object.assign({}, NOTHING, { alone: c.faint_outer }),
    ];
  }

  /* Like prints may touch for less, so that blocks can pass each other. */
  function soft() {
    const { soft_edge: edge, soft_corner: corner } = prints.conventions;
    const [ofPrint, ...others] = weights();
    return [Object.assign(ofPrint, { edge: edge, corner: corner }), ...others];
  }

  /* Nothing matters but like prints that touch. */
  const likeAlone = () => [Object.assign(soft()[PRINT], { near: 0 }), NOTHING, NOTHING, NOTHING];

  function twos(numbers) {
    return numbers.flatMap((one, at) => numbers.slice(at + 1).map((other) => [one, other]));
  }

  function quadrantShare(one, other) {
    return Math.floor(one.reduce((sum, quarter, at) => sum + quarter * other[at], 0) / 4);
  }

  function quadrantPairs(quarters) {
    let doubled = 0;
    for (let at = 0; at < 4; at += 1) {
      const column = quarters.map((each) => each[at]);
      const sum = column.reduce((all, n) => all + n, 0);
      doubled += sum * sum - column.reduce((all, n) => all + n * n, 0);
    }
    return Math.floor(doubled / 8);
  }

  function objectiveOf(floor, blocks, all, contrasts) {
    const looksOf = new Map(blocks.map((block, at) => [block.join() + ";" + contrasts[at], {
      block: block, contrast: contrasts[at],
    }]));
    const known = Array.from(looksOf).sort(([, a], [, b]) => prints.pairs.byNumbers(a.block, b.block)
      || a.contrast - b.contrast);
    const numberOf = new Map(known.map(([key], number) => [key, number]));
    const start = blocks.map((block, at) => numberOf.get(block.join() + ";" + contrasts[at]));
    const families = Array.from(new Set(known.flatMap(([, { block }]) => block.map((one) => all[one].family))))
      .sort((a, b) => a - b);
    const traitOfFamily = new Map(families.map((family, index) => [family, all.length + index]));
    const kinds = [...all.map(() => PRINT), ...families.map(() => FAMILY), EXTREME, EXTREME, FAINT];
    const few = Math.max(2, Math.ceil(blocks.length * prints.conventions.extremes / 100));

    function firstBy(keys) {
      const ordered = start.slice().sort((a, b) => keys[a] - keys[b] || a - b);
      const alike = keys[ordered[0]] === keys[ordered[ordered.length - 1]];
      return new Set(alike ? [] : ordered.slice(0, few));
    }

    const light = known.map(([, { block }]) => Math.floor(
      block.reduce((sum, one) => sum + all[one].lab[0], 0) / block.length));
    const special = [
      firstBy(light), firstBy(light.map((value) => -value)), firstBy(known.map(([, { contrast }]) => contrast)),
    ];
    const rising = (numbers) => Array.from(new Set(numbers)).sort((a, b) => a - b);
    const looks = known.map(([, { block }], look) => ({
      block: block,
      traits: [
        ...rising(block),
        ...rising(block.map((one) => traitOfFamily.get(all[one].family))),
        ...[0, 1, 2].filter((index) => special[index].has(look)).map((index) => all.length + families.length + index),
      ],
    }));

    function touching(has, pairs, costs) {
      return pairs.reduce((sum, [a, b]) => sum + looks[has[a]].traits.reduce(
        (own, trait) => own + (looks[has[b]].traits.includes(trait) ? costs[kinds[trait]] : 0), 0), 0);
    }

    /* The cost of a layout, the look at each cell, by the way in which blocks are near. */
    function parts(layout) {
      const weight = weights();
      const by = (way) => weight.map((each) => each[way]);
      const found = {
        edge: touching(layout, floor.edges, by("edge")),
        corner: touching(layout, floor.corners, by("corner")),
        near: touching(layout, floor.near, by("near")),
        outer: touching(layout, twos(floor.outer), by("outer")),
        line: 0,
        quadrant: 0,
        faint: weight[FAINT].alone
          * floor.outer.filter((cell) => looks[layout[cell]].traits.includes(kinds.length - 1)).length,
      };
      kinds.forEach((kind, trait) => {
        if (kind === PRINT) {
          return;
        }
        const cells = Array.from(layout.keys()).filter((cell) => looks[layout[cell]].traits.includes(trait));
        ["column", "line"].forEach((way) => {
          const counts = new Map();
          cells.forEach((cell) => {
            const key = floor.cells[cell][way];
            counts.set(key, (counts.get(key) || 0) + 1);
          });
          counts.forEach((n) => { found.line += weight[kind].line * n * (n - 1) / 2; });
        });
        found.quadrant += weight[kind].quadrant * quadrantPairs(cells.map((cell) => floor.quarters[cell]));
      });
      return found;
    }

    return {
      floor: floor,
      start: start,
      kinds: kinds,
      looks: looks,
      parts: parts,
      cost: (layout) => Object.values(parts(layout)).reduce((sum, part) => sum + part, 0),
    };
  }

  prints.objective = { PRINT, FAINT, likeAlone, objectiveOf, quadrantShare, soft, twos, weights };
})(window.seamleafPrints = window.seamleafPrints || {});
