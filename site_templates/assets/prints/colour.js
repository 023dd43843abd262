/* Twin of seamleaf/planning/prints/colour.py: CIELAB and CIEDE2000 in hundredths, and hue families. */
(function (prints) {
  "use strict";

  const { cubeRoot, power24, power7, sine, cosine, direction, bell } = prints.elementary;

  const RED = [0.4124564, 0.2126729, 0.0193339];
  const GREEN = [0.3575761, 0.7151522, 0.1191920];
  const BLUE = [0.1804375, 0.0721750, 0.9503041];
  const WHITE = RED.map((red, at) => red + GREEN[at] + BLUE[at]);
  const FAR = 6103515625;
  const FAMILIES = ["neutral", "red", "orange", "yellow", "green", "teal", "blue", "violet", "pink"];

  function hundredths(value) {
    return Math.floor(value * 100 + 0.5);
  }

  function decoded(channel) {
    const value = channel / 255;
    return value <= 0.04045 ? value / 12.92 : power24((value + 0.055) / 1.055);
  }

  function cielab(red, green, blue) {
    const linear = [red, green, blue].map(decoded);
    const [x, y, z] = WHITE.map((white, at) => {
      const t = (RED[at] * linear[0] + GREEN[at] * linear[1] + BLUE[at] * linear[2]) / white;
      return t > 216 / 24389 ? cubeRoot(t) : (24389 / 27 * t + 16) / 116;
    });
    return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
  }

  /* The CIELAB value of #rrggbb. */
  function labOf(colour) {
    return cielab(...[1, 3, 5].map((at) => parseInt(colour.slice(at, at + 2), 16))).map(hundredths);
  }

  function turnAndHue(h1, h2, cross, grey) {
    if (grey) {
      return [0, h1 + h2];
    }
    let turn = h2 - h1;
    if (turn > 0 && cross < 0 && turn > 90) {
      turn -= 360;
    } else if (turn < 0 && cross > 0 && turn < -90) {
      turn += 360;
    } else {
      return [turn, (h1 + h2) / 2];
    }
    const total = h1 + h2;
    return [turn, total < 360 ? (total + 360) / 2 : (total - 360) / 2];
  }

  function ciede2000([l1, a1, b1], [l2, a2, b2]) {
    const meanC7 = power7((Math.sqrt(a1 * a1 + b1 * b1) + Math.sqrt(a2 * a2 + b2 * b2)) / 2);
    const stretch = 1.5 - 0.5 * Math.sqrt(meanC7 / (meanC7 + FAR));
    const c1 = Math.sqrt(a1 * stretch * a1 * stretch + b1 * b1);
    const c2 = Math.sqrt(a2 * stretch * a2 * stretch + b2 * b2);
    const h1 = direction(a1 * stretch, b1);
    const h2 = direction(a2 * stretch, b2);
    const [turn, hue] = turnAndHue(h1, h2, a1 * b2 - a2 * b1, c1 * c2 === 0);
    const light = (l1 + l2) / 2;
    const chroma = (c1 + c2) / 2;
    const weight = 1
      - 0.17 * cosine(hue - 30)
      + 0.24 * cosine(2 * hue)
      + 0.32 * cosine(3 * hue + 6)
      - 0.20 * cosine(4 * hue - 63);
    const off = (light - 50) * (light - 50);
    const dLight = (l2 - l1) / (1 + 0.015 * off / Math.sqrt(20 + off));
    const dChroma = (c2 - c1) / (1 + 0.045 * chroma);
    const dHue = 2 * Math.sqrt(c1 * c2) * sine(turn / 2) / (1 + 0.015 * chroma * weight);
    const around = (hue - 275) / 25;
    const chroma7 = power7(chroma);
    const twist = -2 * Math.sqrt(chroma7 / (chroma7 + FAR)) * sine(60 * bell(around));
    const square = dLight * dLight + dChroma * dChroma + dHue * dHue + twist * dChroma * dHue;
    return Math.sqrt(Math.max(square, 0));
  }

  function difference(one, other) {
    return hundredths(ciede2000(one.map((value) => value / 100), other.map((value) => value / 100)));
  }

  function familyOf([, a, b]) {
    const { grey, hues } = prints.conventions;
    if (a * a + b * b < grey * grey) {
      return 0;
    }
    const hue = direction(a, b);
    return hues.filter((start) => hue >= start).length || hues.length;
  }

  prints.colour = { FAMILIES, labOf, ciede2000, difference, familyOf };
})(window.seamleafPrints = window.seamleafPrints || {});
