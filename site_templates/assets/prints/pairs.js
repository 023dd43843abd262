/* Twin of seamleaf/planning/prints/pairs.py: which prints meet in a block. A print is {lab, family}. */
(function (prints) {
  "use strict";

  const { difference, familyOf } = prints.colour;
  const { leastBy } = prints.choice;
  const WORK = 400000;

  function printOf(lab) {
    return { lab: lab, family: familyOf(lab) };
  }

  function pairCost(one, other, same) {
    const conventions = prints.conventions;
    if (same) {
      return conventions.pair_same;
    }
    const light = Math.abs(one.lab[0] - other.lab[0]);
    const apart = difference(one.lab, other.lab);
    const lack = Math.min(
      Math.max(0, conventions.pair_light - light), Math.max(0, conventions.pair_difference - apart));
    const family = one.family === other.family ? conventions.pair_family : 0;
    return lack + family + Math.floor(Math.max(0, conventions.pair_vivid - apart) / 100);
  }

  function hasContrast(one, other) {
    const { pair_light: light, pair_difference: apart } = prints.conventions;
    return Math.abs(one.lab[0] - other.lab[0]) >= light || difference(one.lab, other.lab) >= apart;
  }

  /* Lists of numbers in the order of their first numbers that differ; a list comes before those it begins. */
  function byNumbers(one, other) {
    const at = one.findIndex((number, index) => number !== other[index]);
    return at < 0 ? one.length - other.length : at < other.length ? one[at] - other[at] : 1;
  }

  function assign(supply, room, meet) {
    const twin = prints.conventions.pair_twin;
    const all = supply.reduce((sum, units) => sum + units, 0);
    if (all * supply.length * room.length <= WORK) {
      return prints.transport(supply, room, (block, at, before) => meet[block][at] + before * twin, () => 0);
    }
    const left = room.slice();
    const sent = supply.map(() => room.map(() => 0));
    supply.forEach((times, block) => {
      for (let time = 0; time < times; time += 1) {
        const free = Array.from(left.keys()).filter((at) => left[at]);
        const best = leastBy(free, (at) => [meet[block][at] + sent[block][at] * twin]);
        sent[block][best] += 1;
        left[best] -= 1;
      }
    });
    return sent;
  }

  /* The blocks in order of their prints; roles holds for each role a Map from print to how often it serves. */
  function pairPrints(roles, all) {
    const costs = new Map();
    function cost(one, other) {
      const key = one * all.length + other;
      if (!costs.has(key)) {
        costs.set(key, pairCost(all[one], all[other], one === other));
      }
      return costs.get(key);
    }
    const inOrder = (role) => Array.from(role).filter(([, times]) => times).sort((a, b) => a[0] - b[0]);
    let blocks = inOrder(roles[0]).map(([number, times]) => ({ block: [number], times: times }));
    roles.slice(1).forEach((role) => {
      const numbers = inOrder(role);
      const meet = blocks.map(({ block }) => numbers.map(
        ([other]) => block.reduce((sum, one) => sum + cost(one, other), 0)));
      const sent = assign(blocks.map((each) => each.times), numbers.map(([, times]) => times), meet);
      blocks = blocks.flatMap(({ block }, at) => numbers
        .map(([number], to) => ({ block: block.concat(number), times: sent[at][to] }))
        .filter((each) => each.times));
      blocks.sort((a, b) => byNumbers(a.block, b.block));
    });
    return blocks.flatMap(({ block, times }) => Array(times).fill(block));
  }

  prints.pairs = { byNumbers, hasContrast, pairPrints, printOf };
})(window.seamleafPrints = window.seamleafPrints || {});
