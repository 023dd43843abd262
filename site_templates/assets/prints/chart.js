/* The layout by sewing rows: a button a block, reached by tab and by arrow keys, and what the checks say of it. */
(function (prints) {
  "use strict";

  const { make, swatch } = prints.reading;
  const QUARTERS = ["own.top-left", "own.top-right", "own.bottom-left", "own.bottom-right"];

  /* The rows of buttons; show(place, pieces, colours, like, held) fills one in. */
  function chartIn(list, rows, blocks, say, pick) {
    const buttons = new Map();
    const lines = rows.map((items) => items.filter((place) => blocks[place])).filter((items) => items.length);
    list.replaceChildren(...lines.map((items) => make("li", {}, [
      make("b", {}, [say("own.row", { number: blocks[items[0]].number.split(".")[0] })]),
      make("div", { class: "sl-chart__row" }, items.map((place) => {
        const button = make("button", { type: "button", "aria-pressed": "false" });
        button.addEventListener("click", () => pick(place));
        buttons.set(place, button);
        return button;
      })),
    ])));

    list.addEventListener("keydown", (event) => {
      const row = lines.findIndex((items) => items.some((place) => buttons.get(place) === event.target));
      if (row < 0) {
        return;
      }
      const at = lines[row].findIndex((place) => buttons.get(place) === event.target);
      const steps = { ArrowRight: [0, 1], ArrowLeft: [0, -1], ArrowDown: [1, 0], ArrowUp: [-1, 0] };
      const step = steps[event.key];
      const line = step && lines[row + step[0]];
      if (line) {
        const next = step[0] ? Math.min(at, line.length - 1) : at + step[1];
        if (line[next] !== undefined) {
          buttons.get(line[next]).focus();
        }
        event.preventDefault();
      }
    });

    return {
      show: function (place, pieces, colours, like, held) {
        const { number, variant, turn } = blocks[place];
        const button = buttons.get(place);
        const name = say("own.block", { number: number, variant: variant, pieces: pieces.join(", ") });
        const notes = [turn ? say("layout." + turn) : "", like ? say("own.like") : "", held ? say("own.is-held") : ""]
          .filter(Boolean);
        button.setAttribute("aria-label", [name].concat(notes).join(". "));
        button.replaceChildren(
          make("b", {}, [number + (variant ? " " + variant : "") + (like ? " !" : "")]),
          make("span", { class: "sl-swatch" }, colours.map(swatch)),
          make("span", {}, [pieces.join(" ")]),
          ...(turn ? [make("small", {}, [say("layout." + turn)])] : []),
          ...(held ? [make("small", {}, [say("own.is-held")])] : []));
      },
      mark: function (picked) {
        buttons.forEach((button, place) => button.setAttribute("aria-pressed", String(place === picked)));
      },
      focus: (place) => buttons.get(place).focus(),
    };
  }

  /* What a layout is checked for, beside what the proposed one had. */
  function showChecks(box, below, report, proposed, blocks, say) {
    const beside = (now, then) => (now === then ? String(now) : say("own.proposed-was", { now: now, then: then }));
    const lines = [
      [say("own.like-edge"), beside(report.like_edge, proposed.like_edge)],
      [say("own.like-corner"), beside(report.like_corner, proposed.like_corner)],
      [say("own.like-bound"), String(report.like_bound)],
      [say("own.contrasting"), say("own.of", { some: report.contrasting, all: blocks })],
    ];
    const spread = (quarters) => quarters.map((each) => String(each / 4));
    box.replaceChildren(make("dl", { class: "sl-facts" }, lines.map(([name, value]) => make("div", {}, [
      make("dt", {}, [name]), make("dd", {}, [value]),
    ]))));
    below.replaceChildren(
      make("div", { class: "sl-scroll", tabindex: "0", role: "region", "aria-label": say("own.families") }, [
        make("table", { class: "sl-table" }, [
          make("caption", {}, [say("own.families")]),
          make("thead", {}, [make("tr", {}, [say("own.family"), say("own.blocks"), ...QUARTERS.map((key) => say(key))]
            .map((title) => make("th", { scope: "col" }, [title])))]),
          make("tbody", {}, report.families.map((each) => make("tr", {}, [
            make("th", { scope: "row" }, [say("own.hue." + each.family)]),
            ...[each.blocks, ...spread(each.quarters)].map((value) => make("td", {}, [String(value)])),
          ]))),
        ]),
      ]));
  }

  prints.chart = { chartIn, showChecks };
})(window.seamleafPrints = window.seamleafPrints || {});
