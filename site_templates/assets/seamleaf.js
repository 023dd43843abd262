/* Ticks and written measures stay on this device, so that a maker finds the place again. Nothing is sent anywhere. */
(function () {
  "use strict";

  var prefix = "seamleaf:" + location.pathname.replace(/[^/]*$/, "") + ":";
  var fields = document.querySelectorAll(".sl-tick input, .sl-write input");
  var button = document.querySelector(".sl-clear");
  var seen = {};

  function store(action) {
    try {
      return action(window.localStorage);
    } catch (refused) { /* a browser that keeps nothing still shows the page */
      return null;
    }
  }

  function keyOf(field) {
    var text = field.parentElement.textContent.replace(/\s+/g, " ").trim();
    seen[text] = (seen[text] || 0) + 1;
    return prefix + text + ":" + seen[text];
  }

  function isSet(field) {
    return field.type === "checkbox" ? field.checked : field.value !== "";
  }

  function showButton() {
    if (button) {
      button.hidden = !Array.prototype.some.call(fields, isSet);
    }
  }

  function keep(field, key) {
    store(function (storage) {
      if (isSet(field)) {
        storage.setItem(key, field.type === "checkbox" ? "ticked" : field.value);
      } else {
        storage.removeItem(key);
      }
    });
    showButton();
  }

  Array.prototype.forEach.call(fields, function (field) {
    var key = keyOf(field);
    var kept = store(function (storage) { return storage.getItem(key); });
    if (kept !== null) {
      if (field.type === "checkbox") {
        field.checked = true;
      } else {
        field.value = kept;
      }
    }
    field.addEventListener("change", function () { keep(field, key); });
    if (button) {
      button.addEventListener("click", function () {
        if (field.type === "checkbox") {
          field.checked = false;
        } else {
          field.value = "";
        }
        keep(field, key);
      });
    }
  });
  showButton();
})();
