/* Twin of seamleaf/planning/prints/chance.py: numbers from a seed, in whole numbers of 32 bits. */
(function (prints) {
  "use strict";

  function chanceOf(seed) {
    let state = seed >>> 0 || 1;
    return {
      /* A number from 0 to limit - 1, for limits up to 2^20; the product stays below 2^53. */
      below: function (limit) {
        state ^= state << 13;
        state ^= state >>> 17;
        state ^= state << 5;
        state >>>= 0;
        return Math.floor(state * limit / 4294967296);
      },
    };
  }

  prints.chance = { chanceOf };
})(window.seamleafPrints = window.seamleafPrints || {});
