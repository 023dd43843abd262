/* Keys and foot pedals move by step; the last step is found again; the size is kept for use without a network. */
(function () {
  "use strict";

  const bar = document.querySelector(".sl-stages");
  if (!bar) {
    return;
  }
  const store = window.seamleafStore;
  const place = "seamleaf:place:" + window.seamleafSize;
  const steps = Array.from(document.querySelectorAll(".sl-step, .sl-stop, .sl-caution, li.sl-row"));
  const stages = Array.from(bar.querySelectorAll("a"));
  const here = stages.findIndex((link) => link.hasAttribute("aria-current"));
  let now = -1;

  function headingOf(step) {
    for (let each = step; each && each !== document.body; each = each.previousElementSibling || each.parentElement) {
      if (/^H[1-6]$/.test(each.tagName) && each.id) {
        return each;
      }
    }
    return null;
  }

  function go(index) {
    if (index < 0 || index >= steps.length) {
      const next = stages[here + (index < 0 ? -1 : 1)];
      if (next) {
        location.href = next.href;
      }
      return;
    }
    if (now >= 0) {
      steps[now].classList.remove("sl-now");
    }
    now = index;
    const step = steps[now];
    step.classList.add("sl-now");
    step.setAttribute("tabindex", "-1");
    step.focus({ preventScroll: true });
    step.scrollIntoView({ block: "start" });
    const heading = headingOf(step);
    store.set(place, JSON.stringify({ href: location.pathname + (heading ? "#" + heading.id : ""), stage: here }));
  }

  /* The step at the top of the window, wherever scrolling has led. */
  function current() {
    if (now >= 0) {
      const box = steps[now].getBoundingClientRect();
      if (box.bottom > 0 && box.top < window.innerHeight) {
        return now;
      }
    }
    const passed = steps.filter((step) => step.getBoundingClientRect().top < window.innerHeight / 4).length;
    return passed - 1;
  }

  const MOVES = { ArrowRight: 1, PageDown: 1, ArrowLeft: -1, PageUp: -1 };

  document.addEventListener("keydown", (event) => {
    const move = MOVES[event.key];
    if (!move || !steps.length || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) {
      return;
    }
    if (event.target.closest("input, textarea, select, dialog, .sl-scroll")) {
      return;
    }
    event.preventDefault();
    const at = current();
    if (event.key.startsWith("Page") && at >= 0) { /* a step longer than the window is read to its end first */
      const box = steps[at].getBoundingClientRect();
      const more = move > 0 ? box.bottom > window.innerHeight + 8 : box.top < -8;
      if (more && box.top < window.innerHeight) {
        window.scrollBy(0, move * window.innerHeight * 0.8);
        return;
      }
    }
    go(at + move);
  });

  const hint = document.querySelector('[data-shows="keys"]');
  if (hint && steps.length && window.matchMedia("(any-pointer: fine)").matches) {
    hint.hidden = false;
  }

  const resume = document.querySelector(".sl-resume");
  if (resume) {
    const last = JSON.parse(store.get(place) || "null");
    if (last && stages[last.stage]) {
      const link = resume.querySelector("a");
      link.href = last.href;
      link.append(" ", stages[last.stage].textContent);
      resume.hidden = false;
    }
  }

  /* ---- without a network ---- */

  const SHOWN = "img[src], script[src], link[rel~=stylesheet], link[rel~=icon], .md-content a[href$='.json'], .md-content a[href$='.pdf']";

  /* Everything that a page shows or offers, by its address. */
  async function partsOf(address) {
    const text = await (await fetch(address)).text();
    const page = new DOMParser().parseFromString(text, "text/html");
    const parts = Array.from(page.querySelectorAll(SHOWN), (part) => part.getAttribute("src") || part.getAttribute("href"));
    const theme = JSON.parse(page.getElementById("__config").textContent); /* the theme's search asks for two files more */
    if (theme.search) {
      parts.push(theme.search, theme.base + "/search/search_index.json");
    }
    return parts.map((part) => new URL(part, address).href);
  }

  /* Once an hour of a visit: every page of the size would fetch all of them anew. */
  const HOUR = 3600000;
  const visit = "seamleaf:kept:" + window.seamleafSize;

  async function isKept() {
    try {
      const since = Date.now() - Number(window.sessionStorage.getItem(visit));
      return since < HOUR && Boolean(await caches.match(stages[0].href.replace(/#.*$/, "")));
    } catch (refused) {
      return false;
    }
  }

  function showKept() {
    const note = document.querySelector('[data-shows="kept"]');
    if (note) {
      note.hidden = false;
    }
  }

  async function keepAll() {
    await navigator.serviceWorker.register(new URL("seamleaf-worker.js", window.seamleafRoot));
    if (await isKept()) {
      showKept();
      return;
    }
    const ready = await navigator.serviceWorker.ready;
    const offered = Array.from(document.querySelectorAll("a[data-keeps]"));
    const pages = [window.seamleafRoot.href + "index.html", ...stages.concat(offered).map((link) => link.href.replace(/#.*$/, ""))];
    const parts = await Promise.all(pages.map(partsOf));
    const channel = new MessageChannel();
    channel.port1.onmessage = () => {
      showKept();
      try {
        window.sessionStorage.setItem(visit, String(Date.now()));
      } catch (refused) { /* the next page keeps it anew */ }
    };
    ready.active.postMessage({ keep: Array.from(new Set([...pages, ...parts.flat()])) }, [channel.port2]);
  }

  if ("serviceWorker" in navigator && location.protocol !== "file:" && navigator.onLine) {
    keepAll().catch(() => { /* a browser that keeps nothing still shows the page */ });
  }
})();
