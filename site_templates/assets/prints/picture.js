/* The quilt as a picture in the reader's colours, in colour or in the greys that are as light. */
(function (prints) {
  "use strict";

  const SVG = "http://www.w3.org/2000/svg";

  function make(name, attributes, parts) {
    const element = document.createElementNS(SVG, name);
    Object.entries(attributes).forEach(([key, value]) => element.setAttribute(key, value));
    element.append(...(parts || []));
    return element;
  }

  /* The grey of the same relative luminance (WCAG 2.2). */
  function greyOf(colour) {
    const [r, g, b] = [1, 3, 5].map((at) => parseInt(colour.slice(at, at + 2), 16) / 255)
      .map((c) => (c <= 0.04045 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4)));
    const y = 0.2126 * r + 0.7152 * g + 0.0722 * b;
    const level = Math.round(255 * (y <= 0.0031308 ? 12.92 * y : 1.055 * Math.pow(y, 1 / 2.4) - 0.055));
    return "#" + level.toString(16).padStart(2, "0").repeat(3);
  }

  /* Draw into an svg element; colourOf(place, fabric, role) says what shows there, and pick is told of a tap on a block. */
  function pictureIn(svg, picture, blocks, colourOf, pick) {
    let grey = false;
    svg.setAttribute("viewBox", "-4 -4 " + (Number(picture.w) + 8) + " " + (Number(picture.h) + 8));
    const borders = picture.borders.map(([, points]) => make("polygon", { points: points }));
    const places = picture.places.map(([stamp, x, y], place) => {
      const { outline, fills } = picture.stamps[stamp];
      const patches = fills.map(([, , path]) => make("path", { d: path, "stroke-width": 0.6 }));
      const group = make("g", { transform: "translate(" + x + " " + y + ")" }, patches);
      if (blocks[place]) {
        group.append(make("polygon", { points: outline, class: "sl-ring" }));
        const number = make("text", { class: "sl-number", y: 8, "text-anchor": "middle" });
        number.textContent = blocks[place].number + blocks[place].variant;
        group.append(number);
        group.setAttribute("class", "sl-place");
        group.addEventListener("click", () => pick(place));
      }
      return { group: group, patches: patches, fills: fills };
    });
    const rim = make("rect", { x: 0, y: 0, width: picture.w, height: picture.h, fill: "none", "stroke-width": 7 });
    svg.replaceChildren(...borders, ...places.map((each) => each.group), rim);

    function paint(element, colour, line) {
      const shown = grey ? greyOf(colour) : colour;
      if (!line) {
        element.setAttribute("fill", shown);
      }
      element.setAttribute("stroke", shown);
    }

    function paintPlace(place) {
      places[place].fills.forEach(([fabric, role], at) => {
        paint(places[place].patches[at], colourOf(place, fabric, role));
      });
    }

    return {
      paint: function () {
        borders.forEach((each, at) => paint(each, colourOf(-1, picture.borders[at][0], null)));
        paint(rim, picture.binding === null ? "#1b1b1f" : colourOf(-1, picture.binding, null), true);
        places.forEach((_, place) => paintPlace(place));
      },
      paintPlace: paintPlace,
      setGrey: function (on) { grey = on; },
      mark: function (picked, like, held) {
        places.forEach(({ group }, place) => {
          group.classList.toggle("sl-picked", place === picked);
          group.classList.toggle("sl-like", like.has(place));
          group.classList.toggle("sl-held", held.includes(place));
        });
      },
    };
  }

  prints.picture = { greyOf, pictureIn };
})(window.seamleafPrints = window.seamleafPrints || {});
