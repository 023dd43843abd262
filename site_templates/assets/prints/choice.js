/* Twin of seamleaf/planning/prints/choice.py: which squares to cut, and into what.

   A square is {lab, spread, squares}, a kind of pieces is {pieces, grounds}. */
(function (prints) {
  "use strict";

  const { difference, familyOf } = prints.colour;
  const CLEAR = 0;
  const LOST = 2;

  /* The first of the least by a list of keys, compared one after the other. */
  function leastBy(all, keysOf) {
    let best = all[0];
    let least = keysOf(best);
    all.slice(1).forEach((each) => {
      const keys = keysOf(each);
      const at = keys.findIndex((key, index) => key !== least[index]);
      if (at >= 0 && keys[at] < least[at]) {
        best = each;
        least = keys;
      }
    });
    return best;
  }

  function lightContrast(square, ground) {
    return Math.max(0, Math.abs(square.lab[0] - ground[0]) - Math.floor(square.spread / 2));
  }

  function gradeOf(square, grounds) {
    const { clear, faint } = prints.conventions;
    const least = grounds.length ? Math.min(...grounds.map((ground) => lightContrast(square, ground))) : clear;
    return least >= clear ? CLEAR : least >= faint ? 1 : LOST;
  }

  function passForEachOther(one, other) {
    const { alike } = prints.conventions;
    return Math.abs(one.lab[0] - other.lab[0]) < 2 * alike && difference(one.lab, other.lab) < alike;
  }

  /* For each colour the first that it passes for, itself if there is none before it. */
  function printsOf(squares) {
    const first = [];
    squares.forEach((square, index) => {
      const known = first.findIndex((of, other) => of === other && passForEachOther(square, squares[other]));
      first.push(known < 0 ? index : known);
    });
    return first;
  }

  function pickerOf(labs, wanted) {
    const families = labs.map(familyOf);
    const left = new Set(labs.keys());
    const nearest = labs.map(() => 1 << 30);
    const taken = prints.colour.FAMILIES.map(() => 0);
    const over = 100 + prints.conventions.share_over;
    const share = taken.map((_, family) => {
      const own = families.filter((each) => each === family).length;
      return Math.ceil(own * wanted * over / (100 * labs.length));
    });
    const picked = [];

    function take(number) {
      picked.push(number);
      left.delete(number);
      taken[families[number]] += 1;
      left.forEach((other) => {
        nearest[other] = Math.min(nearest[other], difference(labs[number], labs[other]));
      });
    }

    return {
      picked: picked,
      pick: function (count, grades) {
        for (let time = 0; time < count; time += 1) {
          const best = Math.min(...Array.from(left, (number) => grades[number]));
          const equal = Array.from(left).filter((number) => grades[number] === best).sort((a, b) => a - b);
          if (picked.length < 2) {
            const sign = picked.length ? 1 : -1;
            take(leastBy(equal, (number) => [sign * labs[number][0], number]));
          } else {
            const within = equal.filter((number) => taken[families[number]] < share[families[number]]);
            take(leastBy(within.length ? within : equal, (number) => [-nearest[number], number]));
          }
        }
      },
    };
  }

  /* The colours of the pieces in the order of cutting, and the verdict on every colour. */
  function choose(squares, kinds) {
    const conventions = prints.conventions;
    const grounds = Array.from(
      new Map(kinds.flatMap((kind) => kind.grounds).map((lab) => [lab.join(), lab])).values());
    const outside = squares.map((square) => gradeOf(square, grounds));
    const first = printsOf(squares);
    const groups = Array.from(new Set(first), (of) => squares.map((_, index) => index)
      .filter((index) => first[index] === of)
      .sort((a, b) => outside[a] - outside[b] || a - b));

    function chosenPrints() {
      const wanted = kinds.reduce((sum, kind) => sum + kind.pieces, 0);
      if (groups.length <= wanted) {
        return new Set(groups.keys());
      }
      const worst = groups.map((members) => Math.max(...members.map((index) => outside[index])));
      const insideToo = kinds.some((kind) => !kind.grounds.length);
      const touching = kinds.reduce((sum, kind) => sum + (kind.grounds.length ? kind.pieces : 0), 0);
      const picker = pickerOf(groups.map((members) => squares[members[0]].lab), wanted);
      picker.pick(touching, worst);
      picker.pick(wanted - touching, worst.map((grade) => (insideToo ? 0 : grade)));
      return new Set(picker.picked);
    }

    function costOf(kind, number, chosen) {
      const grade = Math.max(...groups[number].map((index) => gradeOf(squares[index], kind.grounds)));
      const square = squares[groups[number][0]];
      const light = kind.grounds.length
        ? Math.min(...kind.grounds.map((ground) => lightContrast(square, ground))) : conventions.bold;
      return [0, conventions.faint_cost, conventions.reject_cost][grade]
        + (chosen.has(number) ? 0 : conventions.spare_cost)
        + Math.floor(Math.max(0, conventions.bold - light) / 100);
    }

    const chosen = chosenPrints();
    const costs = kinds.map((kind) => groups.map((_, number) => costOf(kind, number, chosen)));
    const sent = prints.transport(
      kinds.map((kind) => kind.pieces),
      groups.map((members) => members.reduce((sum, index) => sum + squares[index].squares, 0)),
      (kind, number, before) => costs[kind][number] + before * conventions.again_alike_cost,
      (_, before) => before * conventions.again_cost);
    const pieces = [];
    const used = squares.map(() => 0);
    const worst = squares.map(() => CLEAR);
    kinds.forEach((kind, at) => sent[at].forEach((times, number) => {
      for (let time = 0; time < times; time += 1) {
        const free = groups[number].filter((index) => used[index] < squares[index].squares);
        const index = leastBy(free, (each) => [used[each]]);
        used[index] += 1;
        worst[index] = Math.max(worst[index], gradeOf(squares[index], kind.grounds));
        pieces.push(index);
      }
    }));

    function stateOf(index) {
      if (used[index]) {
        if (worst[index] !== CLEAR) {
          return ["used", worst[index] === LOST ? "needed" : "faint"];
        }
        return ["used", outside[index] === CLEAR ? "clear" : "inside"];
      }
      if (kinds.every((kind) => gradeOf(squares[index], kind.grounds) === LOST)) {
        return ["reject", "lost"];
      }
      if (first.some((of, other) => of === first[index] && used[other])) {
        return ["spare", "alike"];
      }
      if (outside[index] === CLEAR) {
        return ["spare", "enough"];
      }
      return ["spare", outside[index] === LOST ? "inside" : "faint"];
    }

    const verdicts = squares.map((square, index) => {
      const [state, reason] = stateOf(index);
      const pairs = grounds.map((ground) => [lightContrast(square, ground), difference(square.lab, ground)]);
      const [light, apart] = pairs.length ? leastBy(pairs, (pair) => pair) : [conventions.bold, conventions.bold];
      const alike = first[index] === index ? null : first[index];
      return { state: state, reason: reason, light: light, difference: apart, alike: alike };
    });
    return { pieces: pieces, verdicts: verdicts };
  }

  prints.choice = { choose, leastBy, lightContrast, printsOf };
})(window.seamleafPrints = window.seamleafPrints || {});
