/* Twin of seamleaf/planning/prints/landscape.py: a layout, and what any exchange of two blocks would change its cost by.

   Where the other packs whole rows into large numbers, this one goes through typed arrays; the sums are the same. */
(function (prints) {
  "use strict";

  const { FAINT, quadrantShare, twos, weights } = prints.objective;
  const LEVEL = 1 << 28;
  const BARRED = 1 << 30;

  function landscapeOf(objective, startLayout, fixed) {
    const floor = objective.floor;
    const size = startLayout.length;
    const traits = objective.looks.map((look) => look.traits);
    const kinds = objective.kinds;
    const held = new Set(fixed);
    const layout = startLayout.slice();
    const ofKind = new Map();
    floor.cells.forEach((cell, number) => {
      if (!held.has(number)) {
        ofKind.set(cell.kind, (ofKind.get(cell.kind) || []).concat(number));
      }
    });
    const free = Array.from(ofKind.values()).filter((numbers) => numbers.length > 1).flat().sort((a, b) => a - b);
    const barred = (one, other) => held.has(other) || floor.cells[one].kind !== floor.cells[other].kind;
    const costs = [0, 1, 2].map(() => new Int16Array(size * size));
    const felt = kinds.map(() => new Int32Array(size));
    const own = new Int32Array(size);
    const row = new Int32Array(size);

    /* What each cell pays for sharing a trait with each other cell, by kind of trait; being faint is between no two. */
    function price(weightings) {
      costs.forEach((table, kind) => {
        const weight = weightings[kind];
        table.fill(0);
        const add = (pairs, cost) => pairs.forEach(([a, b]) => {
          table[a * size + b] += cost;
          table[b * size + a] += cost;
        });
        add(floor.edges, weight.edge);
        add(floor.corners, weight.corner);
        add(floor.near, weight.near);
        add(twos(floor.outer), weight.outer);
        if (!weight.line && !weight.quadrant) {
          return;
        }
        for (let a = 0; a < size; a += 1) {
          for (let b = 0; b < size; b += 1) {
            if (a !== b) {
              const lines = (floor.cells[a].column === floor.cells[b].column)
                + (floor.cells[a].line === floor.cells[b].line);
              table[a * size + b] += weight.line * lines
                + weight.quadrant * quadrantShare(floor.quarters[a], floor.quarters[b]);
            }
          }
        }
      });
    }

    function addOwn() {
      for (let cell = 0; cell < size; cell += 1) {
        own[cell] = traits[layout[cell]].reduce((sum, trait) => sum + felt[trait][cell], 0);
      }
    }

    function feel(trait, cell, sign) {
      if (kinds[trait] === FAINT) {
        return;
      }
      const table = costs[kinds[trait]];
      const sums = felt[trait];
      for (let other = 0, at = cell * size; other < size; other += 1, at += 1) {
        sums[other] += sign * table[at];
      }
    }

    function lay(another, weightings) {
      another.forEach((look, cell) => { layout[cell] = look; });
      price(weightings);
      felt.forEach((sums) => sums.fill(0));
      floor.outer.forEach((cell) => { felt[kinds.length - 1][cell] = weightings[FAINT].alone; });
      layout.forEach((look, cell) => traits[look].forEach((trait) => feel(trait, cell, 1)));
      addOwn();
    }

    /* What an exchange with every cell would change the cost by, above LEVEL; the array is used anew by the next call. */
    function changes(cell) {
      const mine = traits[layout[cell]];
      for (let other = 0; other < size; other += 1) {
        const theirs = traits[layout[other]];
        let sum = LEVEL - own[cell] - own[other] + (barred(cell, other) ? BARRED : 0);
        for (let index = 0; index < mine.length; index += 1) {
          const trait = mine[index];
          sum += felt[trait][other];
          if (kinds[trait] !== FAINT && !theirs.includes(trait)) {
            sum -= costs[kinds[trait]][cell * size + other];
          }
        }
        for (let index = 0; index < theirs.length; index += 1) {
          const trait = theirs[index];
          sum += felt[trait][cell];
          if (kinds[trait] !== FAINT && !mine.includes(trait)) {
            sum -= costs[kinds[trait]][cell * size + other];
          }
        }
        row[other] = sum;
      }
      return row;
    }

    function exchange(one, other) {
      const mine = traits[layout[one]];
      const theirs = traits[layout[other]];
      mine.filter((trait) => !theirs.includes(trait)).forEach((trait) => {
        feel(trait, one, -1);
        feel(trait, other, 1);
      });
      theirs.filter((trait) => !mine.includes(trait)).forEach((trait) => {
        feel(trait, one, 1);
        feel(trait, other, -1);
      });
      [layout[one], layout[other]] = [layout[other], layout[one]];
      addOwn();
    }

    lay(startLayout, weights());
    /* The cells whose blocks pay anything and can be exchanged. */
    const paying = () => free.filter((cell) => own[cell]);

    return { free: free, layout: layout, lay: lay, paying: paying, changes: changes, exchange: exchange };
  }

  prints.landscape = { LEVEL, landscapeOf };
})(window.seamleafPrints = window.seamleafPrints || {});
