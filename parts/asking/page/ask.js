"use strict";
// What the server answers takes the place of what is shown; without this script the same forms work, page by page.
(() => {
  const ENDED = "topend has ended, or can't be reached: start it again; what stands in the file is safe.";
  const CHANGED = "The file was changed by another hand: this is how it stands now.";
  const PAUSE = 200, LONGER = 120, LOOK = 1500;  // ms
  let sent = 0, typing = 0, busy = false, touched = false, making = false, asked = false;
  const $ = (name) => document.getElementById(name);
  if (new URLSearchParams(location.search).has("token")) history.replaceState(null, "", "/");

  const parsed = (text) => new DOMParser().parseFromString(text, "text/html");
  const post = (form, button, to) => fetch(to, { method: "POST", body: new URLSearchParams(new FormData(form, button)) });
  function tell(says, kind) {
    if ($("told")?.textContent === says) return;
    const line = document.createElement("p");
    line.textContent = says;
    if (kind) line.className = kind;
    $("told")?.replaceChildren(line);
  }
  // which folded lists stand open stays as it is
  function unfold(page) {
    for (const one of document.querySelectorAll("#beside details[open]")) {
      const other = page.getElementById(one.id);
      if (other) other.open = true;
    }
  }
  function beside(page) {
    unfold(page);
    $("beside").replaceWith(page.getElementById("beside"));
  }
  async function show(answer, move = true) {
    const text = await answer.text(), page = parsed(text), next = page.querySelector("main");
    if (!next) return tell(text);
    unfold(page);
    document.querySelector("main").replaceWith(next);
    document.title = page.title;
    touched = false;
    follow();
    if (!move) return undefined;
    history.replaceState(null, "", `/?at=${encodeURIComponent(next.dataset.at)}`);
    scrollTo(0, 0);
    return focus();
  }
  function focus() {
    const boxes = [...document.querySelectorAll("#ask fieldset :is(input, select)")].filter((box) => box.offsetParent);
    const wrong = boxes.find((box) => box.getAttribute("aria-invalid")) || boxes.find((box) => box.closest("[data-first]"));
    const first = wrong || boxes.find((box) => box.type !== "radio" || box.checked) || boxes[0] || $("make");
    first.focus();
    if (first.type === "text") first.select();
  }
  async function ask(work) {
    if (busy) return;
    busy = true;
    sent += 1;
    clearTimeout(typing);
    try { await work(); } catch { tell(ENDED); }
    busy = false;
  }

  document.addEventListener("submit", (event) => {
    event.preventDefault();
    const form = event.target, button = event.submitter;
    asked ||= form.id === "making";
    ask(async () => show(await post(form, button, form.getAttribute("action")), form.getAttribute("action") === "/answer"));
  });
  document.addEventListener("click", (event) => {
    const link = event.target.closest("a[data-go]");
    if (!link || event.ctrlKey || event.metaKey || event.shiftKey || event.button) return;
    event.preventDefault();
    ask(async () => show(await fetch(link.href)));
  });
  document.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || event.target.tagName !== "SELECT") return;
    event.preventDefault();
    event.target.form.requestSubmit($("next"));
  });

  // live while typing: how the job would stand with it; nothing is written
  document.addEventListener("input", (event) => {
    const form = event.target.form;
    if (!form || form.getAttribute("action") !== "/answer") return;
    touched = true;
    rows(event.target);
    known(event.target);
    clearTimeout(typing);
    typing = setTimeout(() => attempt(form), PAUSE);
  });
  async function attempt(form) {
    const mine = sent += 1;
    try {
      const page = parsed(await (await post(form, null, "/try")).text());
      if (mine !== sent || !page.querySelector("main")) return;
      beside(page);
      for (const one of page.querySelectorAll(".told")) $(one.id)?.replaceChildren(...one.childNodes);
      for (const box of form.querySelectorAll("fieldset input[type=text]")) box.toggleAttribute("aria-invalid", false);
      follow();
    } catch { tell(ENDED); }
  }
  // what is not known is judged over its range a little later: that takes longer
  function follow() {
    const form = document.querySelector("#ask form"), mine = sent;
    if (!form || !$("beside").hasAttribute("data-pending")) return;
    setTimeout(async () => {
      if (mine !== sent) return;
      const body = new URLSearchParams(new FormData(form));
      body.append("ranges", "yes");
      const page = parsed(await (await fetch("/try", { method: "POST", body })).text());
      if (mine === sent && page.querySelector("main")) beside(page);
    }, LONGER);
  }
  // what is typed is known; what is not known is not typed
  function known(box) {
    const block = box.closest(".block"), tick = block?.querySelector("[data-key]");
    if (!tick) return;
    if (box !== tick) tick.checked = false;
    else if (tick.checked) for (const one of block.querySelectorAll("input:not([data-key])")) {
      if (one.type === "text") one.value = "";
      else if (!/@(form|way)$/.test(one.name)) one.checked = false;
    }
  }
  // another row of X and Y as soon as the last one is begun
  function rows(box) {
    const group = box.closest(".points");
    if (!group || !box.value || ![...group.querySelectorAll("input")].slice(-2).includes(box)) return;
    const number = group.children.length / 2;
    for (const one of [...group.children].slice(-2)) {
      const copy = one.cloneNode(true), input = copy.querySelector("input");
      input.name = input.name.replace(/\.\d+\.(\d)$/, `.${number}.$1`);
      input.value = "";
      copy.querySelector("span").textContent = `${"XY"[input.name.slice(-1)]} of ${number + 1}`;
      group.append(copy);
    }
  }

  // a file that was changed by another hand, and how far a make is
  async function look() {
    const main = document.querySelector("main");
    if (busy || document.hidden) return;
    const mine = sent;
    const state = await (await fetch("/state")).json();
    if (busy || mine !== sent) return;
    if (state.work) working(state.work);
    if (state.mark === main.dataset.mark && state.advice === main.dataset.advice) return;
    const news = state.mark !== main.dataset.mark;
    const answer = await fetch(`/?at=${encodeURIComponent(main.dataset.at)}`);
    if (touched) {
      const page = parsed(await answer.text());
      beside(page);
      main.dataset.mark = state.mark;
      main.dataset.advice = state.advice;
    } else await show(answer, false);
    if (news) tell(CHANGED, "news");
  }
  function working(work) {
    const line = $("work");
    if (!work.outcome) {
      making = true;
      $("make").disabled = true;
      line.textContent = [...work.said, `${work.doing} …`].join(" ");
    } else if (making) {
      making = false;
      $("make").disabled = false;
      const sheet = Object.assign(document.createElement("a"), { href: "/sheet/index.html", textContent: "Open the job sheet" });
      line.replaceChildren(work.outcome.wrong ? work.outcome.wrong.join("; ") : sheet);
      if (asked && !work.outcome.wrong) location.assign(sheet.href);
      asked = false;
    }
  }
  setInterval(() => { look().catch(() => { if (!busy) tell(ENDED); }); }, LOOK);
  focus();
  follow();
})();
