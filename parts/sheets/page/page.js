"use strict";
// Boxes and lines are kept beside the folder where topend shows the sheet, else on this device; without either they
// last as long as the page is open.
(async () => {
  if (new URLSearchParams(location.search).has("token")) history.replaceState(null, "", location.pathname);
  const name = `${document.body.dataset.keep} ${location.pathname}`;  // of this folder's job, and no other's
  const served = await ours();
  let kept = served || {}, later = 0;
  if (!served) try { kept = JSON.parse(localStorage.getItem(name)) || {}; } catch { kept = {}; }
  async function ours() {
    if (!location.protocol.startsWith("http")) return null;
    try { const answer = await fetch("notes"); return answer.ok ? await answer.json() : null; } catch { return null; }
  }
  function save() {
    if (served) { clearTimeout(later); later = setTimeout(send, 200); return; }
    try { localStorage.setItem(name, JSON.stringify(kept)); } catch { /* private window */ }
  }
  async function send() {
    let well = false;
    try { well = (await fetch("notes", { method: "POST", keepalive: true, body: JSON.stringify(kept) })).ok; } catch { /* told below */ }
    document.getElementById("unkept").hidden = well;
  }
  addEventListener("pagehide", () => { if (later) { clearTimeout(later); send(); } });
  for (const field of document.querySelectorAll("input[data-keep]")) {
    const key = field.dataset.keep, box = field.type === "checkbox";
    if (key in kept) { if (box) field.checked = Boolean(kept[key]); else field.value = String(kept[key]); }
    field.addEventListener(box ? "change" : "input", () => {
      const value = box ? field.checked : field.value;
      if (value) kept[key] = value; else delete kept[key];
      save();
      tell();
    });
  }
  // what was written down, as the job file takes it: a figure alone gets the sheet's unit
  function tell() {
    const lines = ["[made]"], seen = {};
    for (const field of document.querySelectorAll("input[data-size]")) {
      const text = field.value.trim(), size = field.dataset.size, unit = field.dataset.unit;
      if (!text) continue;
      const whole = /^[-+]?[0-9.\/ ]+$/.test(text) && unit ? `${text} ${unit}` : text;
      const line = `${JSON.stringify(size)} = ${unit ? JSON.stringify(whole) : whole}`;
      lines.push(size in seen ? `# ${line}` : line);  // one value a size: the others as remarks
      seen[size] = true;
    }
    const out = document.getElementById("made");
    out.value = lines.join("\n");
    out.rows = Math.max(4, lines.length);
  }
  tell();
  // where topend watches the job file: what the last save changed, and the sheet that came of it in the place of this one
  const NEWS = 500, BOXES = "input:not([type=checkbox]), textarea", ENDED = "topend has ended: the sheet stays as it is.";
  let sheet = performance.getEntriesByType("navigation")[0]?.serverTiming?.[0]?.description;
  async function follow() {
    if (document.hidden) return;
    const now = await (await fetch("live")).json();
    if (sheet && now.sheet && now.sheet !== sheet && !document.activeElement.matches(BOXES)) {
      sheet = "";
      if (later) { clearTimeout(later); await send(); }
      location.reload();
    }
    say(now.news);
  }
  function say(news) {
    const line = document.getElementById("news");
    if ([...line.children].map((one) => one.textContent).join() === news.join()) return;
    line.replaceChildren(...news.map((says) => Object.assign(document.createElement("p"), { textContent: says })));
    line.hidden = !news.length;
  }
  if (served) setInterval(() => follow().catch(() => { if (!document.getElementById("news").hidden) say([ENDED]); }), NEWS);
  document.querySelector(".back").hidden = false;
  // what is folded on the screen stands open on paper
  let opened = [];
  addEventListener("beforeprint", () => {
    opened = [...document.querySelectorAll("details:not([open])")];
    for (const one of opened) one.open = true;
  });
  addEventListener("afterprint", () => { for (const one of opened) one.open = false; });
})();
