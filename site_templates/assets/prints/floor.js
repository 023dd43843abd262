/* Twin of seamleaf/planning/prints/floor.py and bounds.py: who touches whom, and how few like neighbours there can be. */
(function (prints) {
  "use strict";

  const EDGES = [[1, 0], [0, 1]];
  const CORNERS = [[1, 1], [-1, 1]];
  const SQUARE = [[0, 0], [1, 0], [0, 1], [1, 1]];
  const NEAR = [0, 1, 2].flatMap((dy) => [-2, -1, 0, 1, 2]
    .map((dx) => [dx, dy])
    .filter(([dx]) => Math.max(Math.abs(dx), dy) === 2 && (dy > 0 || dx > 0)));
  const byFirst = (one, other) => one[0] - other[0] || one[1] - other[1];

  function floorOf(task) {
    const cells = task.cells.map(([place, kind, column, line]) => ({
      place: place, kind: kind, column: column, line: line,
      across: task.on_point ? column - line : column,
      down: task.on_point ? column + line : line,
    }));
    const at = new Map(cells.map((cell, number) => [cell.column + "," + cell.line, number]));

    function pairsBy(ways) {
      const found = [];
      cells.forEach((cell, number) => {
        for (let step = 1; step <= task.step; step += 1) {
          ways.forEach(([dx, dy]) => {
            const other = at.get((cell.column + dx * step) + "," + (cell.line + dy * step));
            if (other !== undefined) {
              found.push([Math.min(number, other), Math.max(number, other)]);
            }
          });
        }
      });
      return found.sort(byFirst);
    }

    return {
      cells: cells,
      step: task.step,
      wide: task.wide,
      high: task.high,
      edges: pairsBy(EDGES),
      corners: pairsBy(CORNERS),
      near: pairsBy(NEAR),
      outer: Array.from(cells.keys()).filter((number) => [0, task.wide].includes(cells[number].across)
        && [0, task.high].includes(cells[number].down)),
      quarters: cells.map((cell) => {
        const left = 1 + Math.sign(task.wide - 2 * cell.across);
        const top = 1 + Math.sign(task.high - 2 * cell.down);
        return [left * top, (2 - left) * top, left * (2 - top), (2 - left) * (2 - top)];
      }),
    };
  }

  /* Sizes of groups of cells that all touch each other, each cell in one: as few groups as were found. */
  function groupsOf(floor) {
    const step = floor.step;
    const known = new Set(floor.cells.map((cell) => cell.column + "," + cell.line));
    const corners = new Map();
    floor.cells.forEach((cell) => SQUARE.forEach(([dx, dy]) => {
      const corner = [cell.column - dx * step, cell.line - dy * step];
      corners.set(corner.join(), corner);
    }));
    const squares = Array.from(corners.values()).sort(byFirst).map((corner) => ({
      corner: corner,
      cells: SQUARE.map(([dx, dy]) => (corner[0] + dx * step) + "," + (corner[1] + dy * step))
        .filter((cell) => known.has(cell)),
    }));
    const covers = [greedyCover(known, squares)];
    const half = (value) => ((Math.floor(value / step) % 2) + 2) % 2;
    SQUARE.forEach(([px, py]) => covers.push(squares
      .filter(({ corner }) => half(corner[0]) === px && half(corner[1]) === py)
      .map((square) => square.cells.length)));
    return covers.reduce((best, cover) => (cover.length < best.length ? cover : best));
  }

  function greedyCover(known, squares) {
    const left = new Set(known);
    const sizes = [];
    while (left.size) {
      let best = [];
      squares.forEach((square) => {
        const held = square.cells.filter((cell) => left.has(cell));
        if (held.length > best.length) {
          best = held;
        }
      });
      sizes.push(best.length);
      best.forEach((cell) => left.delete(cell));
    }
    return sizes;
  }

  function leastPairs(count, groups) {
    let left = count;
    let pairs = 0;
    for (let before = 0; before < 4; before += 1) {
      const taken = Math.min(left, groups.filter((size) => size > before).length);
      pairs += before * taken;
      left -= taken;
    }
    return pairs;
  }

  /* A lower bound of the like neighbours, by edge and corner together, of any layout of these blocks. */
  function leastLikeNeighbours(floor, blocks) {
    const groups = groupsOf(floor);
    const counts = new Map();
    blocks.forEach((block) => new Set(block).forEach((one) => counts.set(one, (counts.get(one) || 0) + 1)));
    return Array.from(counts.values()).reduce((sum, count) => sum + leastPairs(count, groups), 0);
  }

  prints.floor = { floorOf, leastLikeNeighbours };
})(window.seamleafPrints = window.seamleafPrints || {});
