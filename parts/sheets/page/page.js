"use strict";
// Boxes and lines are kept on this device; without storage they last as long as the page is open.
(() => {
  const name = document.body.dataset.keep;
  let kept = {};
  try { kept = JSON.parse(localStorage.getItem(name)) || {}; } catch { kept = {}; }
  const save = () => { try { localStorage.setItem(name, JSON.stringify(kept)); } catch { /* private window */ } };
  for (const field of document.querySelectorAll("input[data-keep]")) {
    const key = field.dataset.keep, box = field.type === "checkbox";
    if (key in kept) { if (box) field.checked = Boolean(kept[key]); else field.value = String(kept[key]); }
    field.addEventListener(box ? "change" : "input", () => {
      const value = box ? field.checked : field.value;
      if (value) kept[key] = value; else delete kept[key];
      save();
    });
  }
  // what is folded on the screen stands open on paper
  let opened = [];
  addEventListener("beforeprint", () => {
    opened = [...document.querySelectorAll("details:not([open])")];
    for (const one of opened) one.open = true;
  });
  addEventListener("afterprint", () => { for (const one of opened) one.open = false; });
})();
