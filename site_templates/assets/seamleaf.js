/* Ticks and written measures stay on this device, so that a maker finds the place again. Nothing is sent anywhere. */
(function () {
  "use strict";

  const first = document.querySelector(".sl-stages a");
  window.seamleafRoot = new URL("..", document.currentScript.src);
  /* The folder of the size whose pages these are: what is set for one page of it holds for all. */
  window.seamleafSize = first ? new URL(".", first.href).pathname : "";

  /* A browser that keeps nothing still shows the page. */
  const store = window.seamleafStore = {
    get: function (key) {
      try {
        return window.localStorage.getItem(key);
      } catch (refused) {
        return null;
      }
    },
    set: function (key, value) {
      try {
        if (value) {
          window.localStorage.setItem(key, value);
        } else {
          window.localStorage.removeItem(key);
        }
      } catch (refused) { /* as above */ }
    },
  };

  const prefix = "seamleaf:" + location.pathname.replace(/[^/]*$/, "") + ":";
  const fields = Array.from(document.querySelectorAll(".sl-tick input, .sl-write input"));
  const button = document.querySelector(".sl-clear");
  const seen = {};

  function keyOf(field) {
    const text = field.parentElement.textContent.replace(/\s+/g, " ").trim();
    seen[text] = (seen[text] || 0) + 1;
    return prefix + text + ":" + seen[text];
  }

  function valueOf(field) {
    return field.type === "checkbox" ? (field.checked ? "ticked" : "") : field.value;
  }

  function put(field, value) {
    if (field.type === "checkbox") {
      field.checked = value !== "";
    } else {
      field.value = value;
    }
  }

  function showButton() {
    if (button) {
      button.hidden = !fields.some(valueOf);
    }
  }

  function keep(field, key) {
    store.set(key, valueOf(field));
    showButton();
  }

  fields.forEach(function (field) {
    const key = keyOf(field);
    const kept = store.get(key);
    if (kept) {
      put(field, kept);
    }
    field.addEventListener("change", function () { keep(field, key); });
    if (button) {
      button.addEventListener("click", function () {
        put(field, "");
        keep(field, key);
      });
    }
  });
  showButton();

  /* What is made is counted up by one; the last one ticks the step as done. */
  document.querySelectorAll(".sl-more").forEach(function (more) {
    const count = more.parentElement.querySelector("input");
    const done = more.closest(".sl-step").querySelector(".sl-done input");
    more.hidden = false;
    more.addEventListener("click", function () {
      const now = Math.min(Number(count.max), (parseInt(count.value, 10) || 0) + 1);
      count.value = String(now);
      count.dispatchEvent(new Event("change"));
      if (done && !done.checked && now === Number(count.max)) {
        done.click();
      }
    });
  });

  /* What scrolls sideways must be reachable without a mouse; the theme wraps an author's tables only after loading. */
  window.addEventListener("load", function () {
    document.querySelectorAll(".md-typeset__scrollwrap").forEach(function (box) {
      if (box.scrollWidth > box.clientWidth) {
        box.setAttribute("tabindex", "0");
      }
    });
  });
})();
