/* Larger type, a screen that stays on, figures that open large, and fabrics in the reader's own colours. */
(function () {
  "use strict";

  const tools = document.querySelector(".sl-tools");
  if (!tools) {
    return;
  }
  const store = window.seamleafStore;
  const size = window.seamleafSize;

  function button(name) {
    return tools.querySelector('[data-does="' + name + '"]');
  }

  function dialog(name) {
    return document.querySelector('dialog[data-is="' + name + '"]');
  }

  document.querySelectorAll('dialog [data-does="close"]').forEach((each) => {
    each.addEventListener("click", () => each.closest("dialog").close());
  });

  /* ---- larger type ---- */

  const STEPS = ["", "larger", "largest"];

  function setType(step) {
    STEPS.slice(1).forEach((each) => document.documentElement.classList.toggle("sl-type-" + each, each === step));
    button("larger").setAttribute("aria-pressed", String(step !== ""));
  }

  setType(store.get("seamleaf:type") || "");
  button("larger").hidden = false;
  button("larger").addEventListener("click", () => {
    const next = STEPS[(STEPS.indexOf(store.get("seamleaf:type") || "") + 1) % STEPS.length];
    store.set("seamleaf:type", next);
    setType(next);
  });

  /* ---- a screen that stays on beside the machine ---- */

  if ("wakeLock" in navigator) {
    let lock = null;
    const awake = button("awake");
    const hold = () => navigator.wakeLock.request("screen").then((held) => { lock = held; }, () => { lock = null; });
    awake.hidden = false;
    awake.addEventListener("click", () => {
      const on = awake.getAttribute("aria-pressed") !== "true";
      awake.setAttribute("aria-pressed", String(on));
      if (on) {
        hold();
      } else if (lock) {
        lock.release();
      }
    });
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible" && awake.getAttribute("aria-pressed") === "true") {
        hold();
      }
    });
  }

  /* ---- figures that open large ---- */

  const large = dialog("figure");
  const picture = document.createElement("img");
  picture.alt = "";
  large.append(picture);
  document.querySelectorAll(".sl-figure a").forEach((link) => {
    link.addEventListener("click", (event) => {
      if (event.ctrlKey || event.metaKey || event.shiftKey) {
        return;
      }
      event.preventDefault();
      const shown = link.querySelector("img");
      picture.src = shown.src;
      picture.alt = shown.alt;
      large.showModal();
    });
  });
  large.addEventListener("click", (event) => {
    if (event.target !== picture) {
      large.close();
    }
  });

  /* ---- the reader's own colours, in every figure of the size ---- */

  const INK = "#1b1b1f";
  const PAPER = "#ffffff";
  const chooser = dialog("colours");
  const inputs = Array.from(chooser.querySelectorAll("input"));
  const figures = Array.from(document.querySelectorAll(".sl-figure img")).map((img) => ({ img: img, from: img.src, text: null }));
  const kept = "seamleaf:colours:" + size;

  function channels(colour) {
    return [1, 3, 5].map((at) => parseInt(colour.slice(at, at + 2), 16));
  }

  function mix(one, other, percent) {
    const b = channels(other);
    const mixed = channels(one).map((a, at) => Math.floor((a * (100 - percent) + b[at] * percent + 50) / 100));
    return "#" + mixed.map((each) => each.toString(16).padStart(2, "0")).join("");
  }

  function luminance(colour) {
    const [r, g, b] = channels(colour).map((value) => {
      const c = value / 255;
      return c <= 0.04045 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4);
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  }

  function inkOn(colour) {
    const here = luminance(colour);
    const contrast = (ink) => {
      const there = luminance(ink);
      return (Math.max(here, there) + 0.05) / (Math.min(here, there) + 0.05);
    };
    return [INK, PAPER].find((ink) => contrast(ink) >= 4.5) || "#000000";
  }

  /* A fabric shows in four shades: itself, its hatch, its wrong side, and the ink of what is written on it. */
  function shades(colour) {
    const ink = inkOn(colour);
    return { fill: colour, line: mix(colour, ink, 45), wrong: mix(colour, PAPER, 72), ink: ink };
  }

  function recoloured(text, changes) {
    const tree = new DOMParser().parseFromString(text, "image/svg+xml");
    tree.querySelectorAll("[fill], [stroke]").forEach((shape) => {
      ["fill", "stroke"].forEach((name) => {
        const change = changes.get(shape.getAttribute(name));
        if (!change) {
          return;
        }
        shape.setAttribute(name, change.colour);
        if (name === "fill" && change.ink) {
          Array.from(shape.parentNode.children).forEach((mark) => {
            if (mark.tagName === "text") {
              mark.setAttribute("fill", change.ink);
            }
          });
        }
      });
    });
    return new XMLSerializer().serializeToString(tree);
  }

  function paint() {
    const changes = new Map();
    inputs.filter((input) => input.value !== input.dataset.was).forEach((input) => {
      const before = shades(input.dataset.was);
      const after = shades(input.value);
      changes.set(before.fill, { colour: after.fill, ink: after.ink });
      changes.set(before.line, { colour: after.line });
      changes.set(before.wrong, { colour: after.wrong });
    });
    figures.forEach((figure) => {
      if (!changes.size) {
        figure.img.src = figure.from;
        return;
      }
      figure.text = figure.text || fetch(figure.from).then((answer) => answer.text());
      figure.text.then((text) => {
        figure.img.src = "data:image/svg+xml," + encodeURIComponent(recoloured(text, changes));
      }, () => { figure.text = null; /* no network and nothing kept: the figure stays as it is */ });
    });
    store.set(kept, changes.size ? JSON.stringify(inputs.map((input) => input.value)) : "");
  }

  if (location.protocol !== "file:" && inputs.length) { /* a browser reads no other file from a folder */
    const before = JSON.parse(store.get(kept) || "[]");
    if (before.length === inputs.length) {
      inputs.forEach((input, at) => { input.value = before[at]; });
      paint();
    }
    button("colours").hidden = false;
    button("colours").addEventListener("click", () => chooser.showModal());
    inputs.forEach((input) => input.addEventListener("change", paint));
    chooser.querySelector('[data-does="reset"]').addEventListener("click", () => {
      inputs.forEach((input) => { input.value = input.dataset.was; });
      paint();
    });
  }
})();
