/* Twin of seamleaf/planning/prints/handout.py: which piece serves which block. Pieces and their uses are Maps. */
(function (prints) {
  "use strict";

  const { leastBy } = prints.choice;

  function evenUses(capacity, blocks, others) {
    const uses = new Map(capacity);
    let over = Array.from(uses.values()).reduce((sum, times) => sum + times, 0) - blocks;
    for (; over > 0; over -= 1) {
      const served = Array.from(uses).filter(([, times]) => times);
      const spare = served.filter(([piece, times]) => times + (others.get(piece) || 0) > 1);
      const [most] = leastBy(spare.length ? spare : served, ([piece, times]) => [-times, -piece]);
      uses.set(most, uses.get(most) - 1);
    }
    return new Map(Array.from(uses).filter(([, times]) => times));
  }

  /* The pieces of each block, one a role. */
  function handOut(blocks, uses, printOfPiece) {
    const left = uses.map((ofRole) => new Map(ofRole));
    const rest = (piece) => left.reduce((sum, ofRole) => sum + (ofRole.get(piece) || 0), 0);
    const dealt = blocks.map((block) => {
      const pieces = [];
      block.forEach((number, role) => {
        const fit = Array.from(left[role].keys())
          .filter((piece) => left[role].get(piece) && printOfPiece.get(piece) === number);
        const fresh = fit.filter((piece) => !pieces.includes(piece));
        const again = block.filter((other) => other === number).length > 1;
        const chosen = leastBy(fresh.length ? fresh : fit, (piece) => [again ? -rest(piece) : 0, piece]);
        left[role].set(chosen, left[role].get(chosen) - 1);
        pieces.push(chosen);
      });
      return pieces;
    });
    partTwins(dealt);
    return dealt;
  }

  function partTwins(table) {
    const out = [];
    table.forEach((row) => {
      const before = row.slice();
      before.forEach((piece, role) => {
        if (before.indexOf(piece) < role) {
          row[role] = null;
          out.push([role, piece]);
        }
      });
    });
    out.forEach(([role, piece]) => {
      let here = table.find((row) => row[role] === null);
      if (here.includes(piece)) {
        const there = table.find((row) => !row.includes(piece));
        freeRole(here, there, role);
        here = there;
      }
      here[role] = piece;
    });
  }

  function freeRole(here, there, role) {
    const path = [role];
    let moving = there[role];
    while (moving !== null && here.includes(moving)) {
      path.push(here.indexOf(moving));
      moving = there[path[path.length - 1]];
    }
    path.forEach((at) => {
      [here[at], there[at]] = [there[at], here[at]];
    });
  }

  prints.handout = { evenUses, handOut };
})(window.seamleafPrints = window.seamleafPrints || {});
