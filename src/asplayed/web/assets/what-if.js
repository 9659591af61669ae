// @ts-check
/** What-if: sliders write changes, and the answer follows them as fast as the server gives it. */

import { $, all, fragment, later, say, shortcut, Fault } from "./common.js";

const form = $("#trying", HTMLFormElement);
const changes = $("#changes", HTMLTextAreaElement);
const club = $("#club", HTMLSelectElement);
const seen = $("#seen", HTMLElement);
const drawn = $("#drawn", HTMLElement);
const pinned = $("#pinned", HTMLElement);
const address = form.dataset.address ?? "";
const csrf = $('meta[name="csrf"]', HTMLMetaElement).content;

for (const part of all(".only-scripted", HTMLElement)) part.hidden = false;
// where the answer stands below the levers, the rarer ones make room for it
if (window.matchMedia("(max-width: 40rem)").matches) for (const fold of all("details.fold", HTMLDetailsElement)) fold.open = false;

// ------------------------------------------------------------------------------------------------- lines of change

/** @typedef {{place: HTMLElement, range: HTMLInputElement, output: HTMLOutputElement, more: string, less: string, rest: number, ofClub: boolean}} Slider */

/** @type {Slider[]} */
const sliders = all("[data-slider]", HTMLElement).map((place) => ({
  place,
  range: $("input", HTMLInputElement, place),
  output: $("output", HTMLOutputElement, place),
  more: place.dataset.more ?? "",
  less: place.dataset.less ?? "",
  rest: Number(place.dataset.rest ?? "0"),
  ofClub: place.dataset.about === "club",
}));

/** @param {string} line */
const literal = (line) => line.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");

/**
 * The pattern of the lines a slider writes, for the club in hand.
 * @param {string} line
 */
function pattern(line) {
  return new RegExp(`^${literal(line.replace("{club}", club.value)).replace("\\{n\\}", "(\\d+(?:\\.\\d+)?)")}$`);
}

/** @returns {string[]} */
const lines = () => changes.value.split("\n").map((line) => line.trim()).filter(Boolean);

/**
 * The line that a slider stands for; nothing where it rests.
 * @param {Slider} slider
 */
function lineOf(slider) {
  const value = Number(slider.range.value);
  if (value === slider.rest) return "";
  const amount = slider.rest ? value : Math.abs(value);
  const line = value > slider.rest || !slider.less ? slider.more : slider.less;
  return line.replace("{club}", club.value).replace("{n}", String(amount));
}

/** @param {Slider} slider */
function write(slider) {
  const ours = [slider.more, slider.less].filter(Boolean).map(pattern);
  const before = lines();
  const at = before.findIndex((line) => ours.some((each) => each.test(line)));
  const line = lineOf(slider);
  if (at >= 0) before.splice(at, 1, ...(line ? [line] : []));
  else if (line) before.push(line);
  changes.value = before.join("\n");
  told(slider);
  move();
}

/** @param {Slider} slider */
function told(slider) {
  const value = Number(slider.range.value);
  const sign = value > 0 && !slider.rest ? "+" : "";
  slider.output.textContent = value === slider.rest && !slider.rest ? "as it is" : `${sign}${value} ${slider.range.dataset.unit}`;
  slider.range.setAttribute("aria-valuetext", slider.output.textContent);
}

/** Set every slider to what the lines say of it. */
function follow() {
  const written = lines();
  const chosen = club.selectedOptions[0];
  for (const slider of sliders) {
    let value = slider.rest;
    for (const [line, way] of /** @type {[string, number][]} */ ([[slider.more, 1], [slider.less, slider.rest ? 1 : -1]])) {
      if (!line) continue;
      const found = written.map((each) => pattern(line).exec(each)).find(Boolean);
      if (found) value = way * Number(found[1]);
    }
    slider.range.value = String(value);
    if (slider.place.dataset.slider === "sleeve") slider.place.hidden = !chosen?.dataset.sleeve;
    if (["loft", "lie"].includes(slider.place.dataset.slider ?? "")) slider.place.hidden = chosen?.dataset.kind === "driver";
    told(slider);
  }
}

// ------------------------------------------------------------------------------------------------------ the answer

let asking = false;
let again = false;

/** Ask once more after the answer under way: the newest state is always the last to be asked about. */
function move() {
  if (asking) {
    again = true;
    return;
  }
  void ask();
}

/** @param {string} [text] */
function sent(text = changes.value) {
  const fields = new FormData();
  fields.set("csrf", csrf);
  fields.set("changes", text);
  for (const field of all("#speed, #handicap", HTMLInputElement)) {
    if (field.value !== field.dataset.known) fields.set(field.name, field.value);
  }
  return fields;
}

async function ask() {
  asking = true;
  try {
    do {
      again = false;
      await fragment(`${address}/try/seen`, seen, { form: sent() });
    } while (again);
    settled();
    draw();
  } catch (fault) {
    if (fault instanceof Fault) say(fault.message, "fault");
  } finally {
    asking = false;
  }
}

/** Put into the address what the page shows. */
function settled() {
  const query = new URLSearchParams();
  for (const [name, value] of sent()) if (name !== "csrf" && value) query.append(name, String(value));
  for (const card of all(".pin", HTMLElement, pinned)) query.append("pin", card.dataset.changes ?? "");
  history.replaceState(null, "", `${address}/try${query.size ? `?${query}` : ""}`);
  $("#pinned-section", HTMLElement).hidden = !pinned.childElementCount;
}

/** The forms below take along what is chosen as they are sent, whether it has been answered yet or not. */
function carry() {
  const aboutClubs = lines().filter((line) => !/^(air|temperature|humidity|altitude|height|pressure|wind|target|ground)\s*:/i.test(line));
  for (const field of all("textarea.carried", HTMLTextAreaElement)) field.value = aboutClubs.join("\n");
}

const draw = later(500, () => {
  fragment(`${address}/try/pictures`, drawn, { form: sent() }).catch((fault) => {
    if (fault instanceof Fault) say(fault.message, "fault");
  });
});

// ------------------------------------------------------------------------------------------------------------ pins

async function pin() {
  const holder = document.createElement("div");
  try {
    await fragment(`${address}/try/pin`, holder, { form: sent() });
    const card = holder.querySelector(".pin");
    if (card) pinned.append(card);
    while (pinned.childElementCount > 4) pinned.firstElementChild?.remove();
    settled();
    say("Pinned below.");
  } catch (fault) {
    if (fault instanceof Fault) say(fault.message, "fault");
  }
}
pinned.addEventListener("click", (event) => {
  const pressed = event.target instanceof Element ? event.target.closest("button") : null;
  const card = pressed?.closest(".pin");
  if (!pressed || !(card instanceof HTMLElement)) return;
  if (pressed.classList.contains("let-go")) card.remove();
  else changes.value = card.dataset.changes ?? "";
  follow();
  move();
});

// --------------------------------------------------------------------------------------------------------- wiring

for (const slider of sliders) {
  slider.range.addEventListener("input", () => write(slider));
  slider.output.addEventListener("dblclick", () => {
    slider.range.value = String(slider.rest);
    write(slider);
  });
}
club.addEventListener("change", follow);
const typed = later(200, () => {
  follow();
  move();
});
changes.addEventListener("input", typed);
for (const field of all("#speed, #handicap", HTMLInputElement)) field.addEventListener("input", typed);
form.addEventListener("submit", (event) => {
  event.preventDefault();
  move();
});
for (const chosen of all("form.chosen", HTMLFormElement)) chosen.addEventListener("submit", carry);
$("#pin", HTMLButtonElement).addEventListener("click", () => void pin());

/** @param {number} step */
function another(step) {
  club.selectedIndex = (club.selectedIndex + step + club.length) % club.length;
  follow();
  say(`${club.value} in hand`);
}
shortcut("j", "The next club in hand", () => another(1));
shortcut("k", "The club before in hand", () => another(-1));
shortcut("e", "Write a change", () => changes.focus());
shortcut("l", "To the sliders", () => sliders.find((slider) => !slider.place.hidden)?.range.focus());
shortcut("i", "Pin this one beside the others", () => void pin());
shortcut("0", "Begin afresh", () => {
  changes.value = "";
  follow();
  move();
});

follow();
settled();
draw();
