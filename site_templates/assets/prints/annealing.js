/* Twin of seamleaf/planning/prints/reader.py and annealing.py: a layout as a careful maker begins it, then a better one. */
(function (prints) {
  "use strict";

  const { leastBy } = prints.choice;
  const { LEVEL, landscapeOf } = prints.landscape;
  const { likeAlone, soft, weights } = prints.objective;
  const HAND = 40;
  const UNIT = 1024;
  const LEVELS = 32;
  const SOFT_LEVELS = 22;
  const PARTING = 5 * UNIT;
  /* No number of these two tables comes near to where its rounding turns, so every browser's logarithms give the same. */
  const TEMPERATURES = Array.from({ length: LEVELS }, (_, level) => Math.floor(
    UNIT * 4 * Math.pow(0.3, level / (LEVELS - 1)) + 0.5));
  const GUMBEL = Array.from({ length: UNIT }, (_, part) => Math.floor(
    UNIT * Math.log(Math.log((part + 0.5) / UNIT) / Math.log(1 - 0.5 / UNIT)) + 0.5));

  function layAsRead(objective, fixed) {
    const floor = objective.floor;
    const held = new Set(fixed);
    const around = floor.cells.map(() => []);
    ["edge", "corner"].forEach((way) => {
      const costs = prints.objective.weights().map((weight) => weight[way]);
      floor[way + "s"].forEach(([a, b]) => {
        around[a].push([b, costs]);
        around[b].push([a, costs]);
      });
    });
    const layout = floor.cells.map((_, cell) => (held.has(cell) ? objective.start[cell] : -1));
    const left = new Map();
    objective.start.forEach((look, cell) => {
      const kind = floor.cells[cell].kind;
      if (!held.has(cell)) {
        left.set(kind, left.get(kind) || new Map());
        left.get(kind).set(look, (left.get(kind).get(look) || 0) + 1);
      }
    });

    function cost(cell, look) {
      const traits = objective.looks[look].traits;
      let sum = 0;
      around[cell].forEach(([other, costs]) => {
        if (layout[other] >= 0) {
          objective.looks[layout[other]].traits.forEach((trait) => {
            sum += traits.includes(trait) ? costs[objective.kinds[trait]] : 0;
          });
        }
      });
      return sum;
    }

    floor.cells.forEach((at, cell) => {
      if (layout[cell] >= 0) {
        return;
      }
      const stock = left.get(at.kind);
      const hand = Array.from(stock.keys()).sort((a, b) => stock.get(b) - stock.get(a) || a - b).slice(0, HAND);
      const look = leastBy(hand, (each) => [cost(cell, each), -stock.get(each), each]);
      layout[cell] = look;
      stock.set(look, stock.get(look) - 1);
      if (!stock.get(look)) {
        stock.delete(look);
      }
    });
    return layout;
  }

  function shuffled(chance) {
    const numbers = GUMBEL.slice();
    for (let last = UNIT - 1; last > 0; last -= 1) {
      const other = chance.below(last + 1);
      [numbers[last], numbers[other]] = [numbers[other], numbers[last]];
    }
    return numbers;
  }

  /* The numbers of Gumbel of a scale. */
  const luckOf = (gumbel, temperature) => Int32Array.from(gumbel, (part) => temperature * part >> 20);

  /* Exchange one of some cells with whichever its odds give; the change of the cost. */
  function move(landscape, cells, luck, chance) {
    const cell = cells[chance.below(cells.length)];
    const first = chance.below(UNIT);
    const changes = landscape.changes(cell);
    let other = 0;
    let lowest = Infinity;
    for (let each = 0; each < changes.length; each += 1) {
      const odds = changes[each] + luck[(first + each) % UNIT];
      if (odds < lowest) {
        lowest = odds;
        other = each;
      }
    }
    if (landscape.layout[cell] === landscape.layout[other]) {
      return 0;
    }
    const change = changes[other] - LEVEL;
    landscape.exchange(cell, other);
    return change;
  }

  /* The best layout met while blocks move at falling temperatures. */
  function cool(landscape, gumbel, temperatures, chance) {
    const { steps: most, steps_each: each, most_looks: looks } = prints.conventions;
    const cells = landscape.layout.length;
    const steps = Math.max(1, Math.floor(Math.min(most, each * cells, Math.floor(looks / cells)) / LEVELS));
    let best = landscape.layout.slice();
    let cost = 0;
    let least = 0;
    temperatures.forEach((temperature) => {
      const luck = luckOf(gumbel, temperature);
      for (let step = 0; step < steps; step += 1) {
        cost += move(landscape, landscape.free, luck, chance);
        if (cost < least) {
          best = landscape.layout.slice();
          least = cost;
        }
      }
    });
    return best;
  }

  /* The best layout met while only blocks that touch a like print move, until none does. */
  function part(landscape, gumbel, chance) {
    const { parting_steps: most, most_looks: looks } = prints.conventions;
    const luck = luckOf(gumbel, PARTING);
    let best = landscape.layout.slice();
    let cost = 0;
    let least = 0;
    let paying = landscape.paying();
    for (let left = Math.min(most, Math.floor(looks / best.length)); left && paying.length; left -= 1) {
      cost += move(landscape, paying, luck, chance);
      if (cost < least) {
        best = landscape.layout.slice();
        least = cost;
      }
      paying = landscape.paying();
    }
    return best;
  }

  function settle(landscape) {
    let left = Math.floor(prints.conventions.most_settling / landscape.layout.length);
    let restless = true;
    while (restless && left > 0) {
      restless = false;
      landscape.free.forEach((cell) => {
        if (left === 0) {
          return;
        }
        left -= 1;
        const changes = landscape.changes(cell);
        let other = 0;
        changes.forEach((change, each) => {
          if (change < changes[other]) {
            other = each;
          }
        });
        if (changes[other] < LEVEL) {
          landscape.exchange(cell, other);
          restless = true;
        }
      });
    }
  }

  /* A layout of low cost, the look at each cell; the blocks of fixed cells stay where they are. */
  function anneal(objective, start, seed, fixed) {
    const { runs: most, agreeing, steps, most_looks: looks } = prints.conventions;
    const landscape = landscapeOf(objective, start, fixed);
    const chance = prints.chance.chanceOf(seed);
    let best = start.slice();
    let least = objective.cost(start);
    const runs = Math.max(1, Math.min(most, Math.floor(looks / (steps * start.length))));

    function keep(found) {
      landscape.lay(found, weights());
      settle(landscape);
      const cost = objective.cost(landscape.layout);
      if (cost < least) {
        best = landscape.layout.slice();
        least = cost;
      }
      return cost;
    }

    const costs = [];
    for (let run = 0; run < (landscape.free.length ? runs : 0); run += 1) {
      const gumbel = shuffled(chance);
      landscape.lay(start, soft());
      cool(landscape, gumbel, TEMPERATURES.slice(0, SOFT_LEVELS), chance);
      landscape.lay(landscape.layout.slice(), weights());
      costs.push(keep(cool(landscape, gumbel, TEMPERATURES.slice(SOFT_LEVELS), chance)));
      const lowest = Math.min(...costs);
      if (costs.filter((cost) => cost === lowest).length === agreeing) {
        break;
      }
    }
    landscape.lay(best, likeAlone());
    if (landscape.paying().length) {
      const gumbel = shuffled(chance);
      landscape.lay(part(landscape, gumbel, chance), weights());
      keep(cool(landscape, gumbel, TEMPERATURES.slice(SOFT_LEVELS), chance));
    }
    return best;
  }

  prints.annealing = { GUMBEL, TEMPERATURES, anneal, layAsRead };
})(window.seamleafPrints = window.seamleafPrints || {});
