/* What a reader enters: colours as text, how many pieces there are of each, and the words of the page. */
(function (prints) {
  "use strict";

  const SIX = /^#?([0-9a-f]{6})$/i;
  const THREE = /^#([0-9a-f])([0-9a-f])([0-9a-f])$/i;
  const TIMES = /^[x×*](\d{1,3})$/i;
  const PASSED_OVER = /^(-|colou?rs?:)?$/i;
  const MOST = 200;

  /* The colours in a text, one a print, each with a count where one is written; and the words that are neither. */
  function readColours(text) {
    const squares = [];
    const unread = [];
    text.replace(/(^|\s)#(\s.*)?$/gm, "").split(/[\s,;"'[\](){}]+/).forEach((word) => {
      const six = SIX.exec(word);
      const three = THREE.exec(word);
      const times = TIMES.exec(word);
      if (six || three) {
        const colour = six ? six[1] : three.slice(1).map((digit) => digit + digit).join("");
        squares.push({ colour: "#" + colour.toLowerCase(), many: null });
      } else if (times && squares.length && Number(times[1])) {
        squares[squares.length - 1].many = Number(times[1]);
      } else if (!PASSED_OVER.test(word)) {
        unread.push(word);
      }
    });
    return { squares: squares.slice(0, MOST), unread: unread };
  }

  /* How many pieces there are of each of so many colours: the bundles that are bought, dealt round, the first first. */
  function deal(colours, need, pack) {
    const bought = pack === null ? need * colours : Math.ceil(need / pack) * pack;
    return Array.from({ length: colours }, (_, at) => Math.floor(bought / colours) + (at < bought % colours ? 1 : 0));
  }

  function speaker(words) {
    return function say(key, values) {
      const given = values || {};
      const [one, other] = words[key];
      return (given.n === 1 ? one : other).replace(/\{([a-z_]+)\}/g, (_, name) => given[name]);
    };
  }

  /* An element with attributes and what it holds; text stays text. */
  function make(name, attributes, parts) {
    const element = document.createElement(name);
    Object.entries(attributes || {}).forEach(([key, value]) => {
      if (value !== null) {
        element.setAttribute(key, value);
      }
    });
    element.append(...(parts || []));
    return element;
  }

  /* A square of a colour; set by a property, since a strict policy lets no page write styles into its text. */
  function swatch(colour) {
    const element = make("span", { class: "sl-colour", "aria-hidden": "true" });
    element.style.backgroundColor = colour;
    return element;
  }

  prints.reading = { MOST, deal, make, readColours, speaker, swatch };
})(window.seamleafPrints = window.seamleafPrints || {});
