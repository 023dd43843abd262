/* Twin of seamleaf/planning/prints/elementary.py: roots, angles and powers of the same bits on every machine. The steps
   and their order are those of that module, and no function of Math is used but what IEEE 754 settles to the last bit. */
(function (prints) {
  "use strict";

  const RADIAN = 180 / Math.PI;
  const STEPS = 12;

  function cubeRoot(value) {
    let root = (1 + 2 * value) / 3;
    for (let step = 0; step < STEPS; step += 1) {
      root = (2 * root + value / (root * root)) / 3;
    }
    return root;
  }

  function power24(value) {
    let root = 1;
    for (let step = 0; step < STEPS; step += 1) {
      root = (4 * root + value / (root * root * root * root)) / 5;
    }
    return value * value * root * root;
  }

  function power7(value) {
    const cube = value * value * value;
    return cube * cube * value;
  }

  function sine(degrees) {
    let turned = degrees - 360 * Math.floor(degrees / 360 + 0.5);
    if (turned > 90) {
      turned = 180 - turned;
    } else if (turned < -90) {
      turned = -180 - turned;
    }
    const angle = turned / RADIAN;
    let term = angle;
    let total = angle;
    for (let power = 3; power < 28; power += 2) {
      term = -term * angle * angle / (power * (power - 1));
      total += term;
    }
    return total;
  }

  function cosine(degrees) {
    return sine(degrees + 90);
  }

  function direction(x, y) {
    const wide = Math.abs(x);
    const high = Math.abs(y);
    if (wide === 0 && high === 0) {
      return 0;
    }
    let slope = Math.min(wide, high) / Math.max(wide, high);
    for (let time = 0; time < 2; time += 1) {
      slope = slope / (1 + Math.sqrt(1 + slope * slope));
    }
    let power = slope;
    let total = slope;
    for (let odd = 3; odd < 26; odd += 2) {
      power = -power * slope * slope;
      total += power / odd;
    }
    let angle = 4 * total * RADIAN;
    if (high > wide) {
      angle = 90 - angle;
    }
    if (x < 0) {
      angle = 180 - angle;
    }
    return y < 0 ? 360 - angle : angle;
  }

  function bell(value) {
    const small = value * value / 1024;
    let term = 1;
    let total = 1;
    for (let power = 1; power < 25; power += 1) {
      term = -term * small / power;
      total += term;
    }
    for (let time = 0; time < 10; time += 1) {
      total = total * total;
    }
    return total;
  }

  prints.elementary = { cubeRoot, power24, power7, sine, cosine, direction, bell };
})(window.seamleafPrints = window.seamleafPrints || {});
