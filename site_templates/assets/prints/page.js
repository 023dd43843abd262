/* The page of a reader's own prints: what is entered, what becomes of it, the layout, and exchanges of two blocks.

   All of it is worked out here. What is entered stays in this browser; the page asks nothing of anyone. */
(function (prints) {
  "use strict";

  const root = document.querySelector("[data-is='own-prints']");
  if (!root) {
    return;
  }
  const data = JSON.parse(document.getElementById("sl-own-prints").textContent);
  const { MOST, deal, make, readColours, swatch } = prints.reading;
  const say = prints.reading.speaker(data.words);
  const store = window.seamleafStore;
  const kept = "seamleaf:prints:" + window.seamleafSize;
  const part = (name) => root.querySelector('[data-part="' + name + '"]');
  const button = (name) => root.querySelector('[data-does="' + name + '"]');
  const bundles = data.fabrics.filter((fabric) => fabric.bundle);
  const others = data.fabrics.filter((fabric) => !fabric.bundle);
  const task = data.task;
  prints.conventions = data.conventions;

  const needOf = (fabric) => task.bundles[fabric.id].reduce((sum, sheet) => sum + sheet.times, 0);
  let state = startState();
  let plan = null;
  let pieces = new Map();
  let picked = null;

  /* ---- what is entered ---- */

  function startState() {
    const fresh = { squares: {}, counted: {}, grounds: {}, exchanges: [], held: [] };
    bundles.forEach((fabric) => {
      fresh.squares[fabric.id] = fabric.colours.map((colour) => ({ colour: colour, many: 1 }));
    });
    others.forEach((fabric) => { fresh.grounds[fabric.id] = fabric.colours[0]; });
    return fresh;
  }

  /* What was kept, as far as it is what this page writes: another version may have other fabrics. */
  function restore() {
    const isColour = (colour) => typeof colour === "string" && /^#[0-9a-f]{6}$/.test(colour);
    try {
      const was = JSON.parse(store.get(kept) || "{}");
      bundles.forEach(({ id }) => {
        const squares = was.squares[id];
        if (squares.length && squares.length <= MOST
          && squares.every((each) => isColour(each.colour) && Number.isInteger(each.many) && each.many > 0)) {
          state.squares[id] = squares.map(({ colour, many }) => ({ colour: colour, many: many }));
          state.counted[id] = Boolean(was.counted[id]);
        }
      });
      others.forEach(({ id }) => {
        state.grounds[id] = isColour(was.grounds[id]) ? was.grounds[id] : state.grounds[id];
      });
      state.exchanges = was.exchanges.filter((each) => each.length % 2 === 0 && each.every((at) => unitAt.has(at)));
      state.held = (was.held || []).filter((at) => data.blocks[at]);
    } catch (broken) {
      state = startState();
    }
  }

  function forgetLayout() {
    state.exchanges = [];
    state.held = [];
  }

  function keep() {
    store.set(kept, JSON.stringify(state));
  }

  function dealOut(fabric) {
    if (!state.counted[fabric.id]) {
      const squares = state.squares[fabric.id];
      deal(squares.length, needOf(fabric), fabric.pack).forEach((many, at) => { squares[at].many = many; });
    }
  }

  function bundleEditor(fabric) {
    const list = make("ol", { class: "sl-mine" });
    const count = make("p", { role: "status" });
    const note = make("p", { role: "status" });
    const text = make("textarea", { rows: "3", spellcheck: "false", autocomplete: "off" });
    const take = make("button", { type: "button", class: "md-button" }, [say("own.take")]);
    const add = make("button", { type: "button", class: "md-button" }, [say("own.add")]);

    function changed(focusAt) {
      dealOut(fabric);
      forgetLayout();
      show();
      if (focusAt !== undefined) {
        (list.querySelectorAll("input[type=color]")[focusAt] || add).focus();
      }
      keep();
      later();
    }

    function item(square, at) {
      const number = at + 1;
      const colour = make("input", {
        type: "color", value: square.colour, "aria-label": say("own.colour-of", { number: number }),
      });
      const many = make("input", {
        type: "number", min: "1", max: "999", value: square.many, inputmode: "numeric",
        "aria-label": say("own.many-of", { number: number }),
      });
      const gone = make("button", { type: "button", "aria-label": say("own.remove-of", { number: number }) }, ["×"]);
      colour.addEventListener("change", () => { square.colour = colour.value; changed(); });
      many.addEventListener("change", () => {
        square.many = Math.min(999, Math.max(1, Math.floor(Number(many.value)) || 1));
        state.counted[fabric.id] = true;
        changed();
      });
      gone.addEventListener("click", () => {
        if (state.squares[fabric.id].length > 1) {
          state.squares[fabric.id].splice(at, 1);
          changed(Math.max(0, at - 1));
        }
      });
      return make("li", {}, [make("span", { class: "sl-mine__number" }, [String(number)]), colour, many, gone]);
    }

    function show() {
      const squares = state.squares[fabric.id];
      const have = squares.reduce((sum, each) => sum + each.many, 0);
      const lacking = needOf(fabric) - have;
      list.replaceChildren(...squares.map(item));
      add.disabled = squares.length >= MOST;
      count.textContent = [
        say("own.need", { n: needOf(fabric) }), say("own.have", { n: have }),
        lacking > 0 ? say("own.missing", { n: lacking }) : "",
      ].join(" ");
    }

    take.addEventListener("click", () => {
      const found = readColours(text.value);
      const words = found.unread.slice(0, 5).join(" ");
      note.textContent = [
        found.squares.length ? say("own.found", { n: found.squares.length }) : say("own.none"),
        words ? say("own.unread", { words: words }) : "",
      ].join(" ");
      if (found.squares.length) {
        state.counted[fabric.id] = found.squares.some((each) => each.many !== null);
        state.squares[fabric.id] = found.squares.map((each) => ({ colour: each.colour, many: each.many || 1 }));
        changed();
      }
    });
    add.addEventListener("click", () => {
      state.squares[fabric.id].push({ colour: "#808080", many: 1 });
      changed(state.squares[fabric.id].length - 1);
    });
    show();
    return make("fieldset", { class: "sl-bundle" }, [
      make("legend", {}, [say("own.bundle", { letter: fabric.letter, title: fabric.title })]),
      count,
      list,
      make("p", {}, [add]),
      make("label", { class: "sl-paste" }, [make("span", {}, [say("own.paste")]), text]),
      make("p", {}, [take]),
      note,
    ]);
  }

  function groundEditor(fabric) {
    const label = say("own.bundle", { letter: fabric.letter, title: fabric.title });
    const input = make("input", { type: "color", value: state.grounds[fabric.id] });
    input.addEventListener("change", () => {
      state.grounds[fabric.id] = input.value;
      forgetLayout();
      keep();
      later();
    });
    return make("li", {}, [make("label", { class: "sl-ground" }, [input, make("span", {}, [label])])]);
  }

  function showEntries() {
    part("bundles").replaceChildren(...bundles.map(bundleEditor));
    part("grounds").replaceChildren(...others.map(groundEditor));
  }

  /* ---- what becomes of it ---- */

  function showVerdicts() {
    part("verdicts").replaceChildren(...bundles.map((fabric) => {
      const { verdicts, pieces: cut } = plan.choices[fabric.id];
      const inState = (word) => verdicts.filter((each) => each.state === word).length;
      const rows = verdicts.map((verdict, at) => {
        const numbers = cut.map((colour, piece) => (colour === at ? piece + 1 : 0)).filter(Boolean);
        const why = verdict.reason === "alike" && verdict.alike !== null
          ? say("own.alike", { number: verdict.alike + 1 }) : say("prepare.reason." + verdict.reason);
        return make("tr", { "data-state": verdict.state }, [
          make("th", { scope: "row" }, [String(at + 1), " ", swatch(state.squares[fabric.id][at].colour)]),
          make("td", {}, [make("b", {}, [say("prepare.state." + verdict.state)]), " ", why]),
          make("td", {}, [numbers.join(", ")]),
        ]);
      });
      return make("table", { class: "sl-table sl-table--wrap" }, [
        make("caption", {}, [say("own.bundle", fabric) + ". " + say("own.summary", {
          n: verdicts.length, used: inState("used"), spare: inState("spare"), rejected: inState("reject"),
        })]),
        make("thead", {}, [make("tr", {}, ["own.print", "own.verdict", "own.pieces"].map(
          (key) => make("th", { scope: "col" }, [say(key)])))]),
        make("tbody", {}, rows),
      ]);
    }));
  }

  /* ---- the layout ---- */

  const colourOfPiece = (fabric, piece) => state.squares[fabric][plan.choices[fabric].pieces[piece - 1]].colour;

  function coloursAt(place) {
    return task.roles[unitAt.get(place)].map((role, at) => colourOfPiece(role.fabric, pieces.get(place)[at]));
  }

  function colourOf(place, fabric, role) {
    if (state.grounds[fabric]) {
      return state.grounds[fabric];
    }
    const roles = unitAt.has(place) ? task.roles[unitAt.get(place)] : [];
    const at = roles.findIndex((each) => each.fabric === fabric && each.print === role);
    return colourOfPiece(fabric, at < 0 ? 1 : pieces.get(place)[at]);
  }

  const unitAt = new Map(task.cells.map(([place, unit]) => [place, unit]));
  const picture = prints.picture.pictureIn(part("picture"), data.picture, data.blocks, colourOf, pick);
  const chart = prints.chart.chartIn(part("chart"), data.rows, data.blocks, say, pick);

  /* The places with a block that shares a print with one beside it. */
  function likePlaces(shown) {
    const found = new Set();
    plan.floor.edges.concat(plan.floor.corners).forEach((pair) => {
      if (shown[pair[0]].some((one) => shown[pair[1]].includes(one))) {
        pair.forEach((number) => found.add(plan.floor.cells[number].place));
      }
    });
    return found;
  }

  function showLayout() {
    const shown = plan.floor.cells.map(({ place, kind }) => plan.printsOf(kind, pieces.get(place)));
    const like = likePlaces(shown);
    plan.floor.cells.filter(({ place }) => data.blocks[place]).forEach(({ place }) => {
      chart.show(place, pieces.get(place), coloursAt(place), like.has(place), state.held.includes(place));
    });
    prints.chart.showChecks(part("checks"), part("families"), plan.report(shown), plan.layout, shown.length, say);
    chart.mark(picked);
    picture.mark(picked, like, state.held);
    button("undo").disabled = !state.exchanges.length;
    button("proposed").disabled = !state.exchanges.length && !state.held.length;
    button("hold").disabled = picked === null;
    button("hold").textContent = say(state.held.includes(picked) ? "own.let-go" : "own.hold");
    button("around").disabled = !state.held.length;
  }

  function tell(text) {
    part("told").textContent = text;
  }

  const numberOf = (place) => data.blocks[place].number;

  function exchange(one, other) {
    const [mine, theirs] = [pieces.get(one), pieces.get(other)];
    pieces.set(one, theirs);
    pieces.set(other, mine);
    picture.paintPlace(one);
    picture.paintPlace(other);
  }

  /* Make exchanges that follow each other: two places for each. */
  function exchangeAll(places) {
    for (let at = 0; at < places.length; at += 2) {
      exchange(places[at], places[at + 1]);
    }
  }

  function pick(place) {
    if (picked === null) {
      picked = place;
      tell(say("own.picked", { number: numberOf(place) }));
      showLayout();
      return;
    }
    const held = [picked, place].find((each) => state.held.includes(each));
    if (picked === place) {
      tell(say("own.put-back", { number: numberOf(place) }));
    } else if (held !== undefined) {
      tell(say("own.held-stays", { number: numberOf(held) }));
    } else if (unitAt.get(picked) !== unitAt.get(place)) {
      tell(say("own.other-kind", { one: numberOf(picked), other: numberOf(place) }));
    } else {
      exchange(picked, place);
      state.exchanges.push([picked, place]);
      tell(say("own.exchanged", { one: numberOf(picked), other: numberOf(place) }));
      keep();
    }
    picked = null;
    showLayout();
  }

  button("hold").addEventListener("click", () => {
    const was = state.held.includes(picked);
    state.held = was ? state.held.filter((each) => each !== picked) : state.held.concat(picked);
    tell(say(was ? "own.let-go-now" : "own.held-now", { number: numberOf(picked) }));
    chart.focus(picked); // its own button is about to be disabled
    picked = null;
    keep();
    showLayout();
  });
  button("around").addEventListener("click", () => {
    root.setAttribute("aria-busy", "true");
    tell(say("own.working"));
    window.setTimeout(() => {
      const from = plan.around(pieces, state.held);
      const moves = [];
      const done = new Set();
      from.forEach((_, place) => {
        // What this place is to have may have been moved on by exchanges before.
        let source = from.get(place);
        while (done.has(source)) {
          source = from.get(source);
        }
        done.add(place);
        if (source !== place) {
          moves.push(place, source);
        }
      });
      exchangeAll(moves);
      picked = null;
      if (moves.length) {
        state.exchanges.push(moves);
      }
      keep();
      tell(say("own.around-now", { n: state.held.length }));
      root.removeAttribute("aria-busy");
      showLayout();
    }, 30);
  });
  button("undo").addEventListener("click", () => {
    exchangeAll(state.exchanges.pop().reverse());
    picked = null;
    tell(say("own.undone"));
    keep();
    showLayout();
  });
  button("proposed").addEventListener("click", () => {
    forgetLayout();
    keep();
    tell(say("own.proposed-now"));
    showPlan();
  });
  button("grey").addEventListener("click", (event) => {
    const on = event.target.getAttribute("aria-pressed") !== "true";
    event.target.setAttribute("aria-pressed", String(on));
    picture.setGrey(on);
    if (plan) {
      picture.paint();
    }
  });
  button("numbers").addEventListener("click", (event) => {
    const on = event.target.getAttribute("aria-pressed") !== "true";
    event.target.setAttribute("aria-pressed", String(on));
    part("picture").classList.toggle("sl-numbered", on);
  });
  button("print").addEventListener("click", () => window.print());
  button("reset").addEventListener("click", () => {
    state = startState();
    bundles.forEach(dealOut);
    store.set(kept, "");
    showEntries();
    later();
  });

  /* ---- working it out ---- */

  function showPlan() {
    picked = null;
    pieces = new Map(plan.pieces);
    picture.paint();
    state.exchanges = state.exchanges.filter((places) => places.every(
      (place, at) => unitAt.get(place) === unitAt.get(places[at - at % 2])));
    state.exchanges.forEach(exchangeAll);
    showLayout();
  }

  function work() {
    const enough = bundles.every((fabric) => needOf(fabric)
      <= state.squares[fabric.id].reduce((sum, each) => sum + each.many, 0));
    part("result").hidden = !enough;
    root.removeAttribute("aria-busy");
    if (!enough) {
      tell("");
      return;
    }
    const squares = {};
    bundles.forEach(({ id }) => {
      squares[id] = state.squares[id].map(({ colour, many }) => ({
        lab: prints.colour.labOf(colour), spread: 0, squares: many,
      }));
    });
    const grounds = {};
    others.forEach(({ id }) => { grounds[id] = prints.colour.labOf(state.grounds[id]); });
    plan = prints.plan(task, squares, grounds);
    tell("");
    showVerdicts();
    showPlan();
  }

  let waiting = 0;
  function later() {
    root.setAttribute("aria-busy", "true");
    tell(say("own.working"));
    window.clearTimeout(waiting);
    waiting = window.setTimeout(work, 30);
  }

  restore();
  bundles.forEach(dealOut);
  showEntries();
  root.hidden = false;
  later();
})(window.seamleafPrints = window.seamleafPrints || {});
