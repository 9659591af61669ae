// @ts-check
/** The bench: ticks and readings are kept as they are made, others' come in, and a keypad stands under the readings. */

import { $, all, fragment, say, shortcut, Fault } from "./common.js";

const bench = $("#bench", HTMLElement);
const keypad = $("#keypad", HTMLElement);
const address = bench.dataset.address ?? "";
const EVERY = 4000; // ms between two looks for what others did
/** @type {string} the id of the reading that the keypad types into; the input itself is replaced at every refresh */
let reading = "";
let busy = false;

/** @param {string} id */
function field(id) {
  const found = id ? document.getElementById(id) : null;
  return found instanceof HTMLInputElement ? found : null;
}

/**
 * What is being typed stays while the work around it is brought up to date.
 * @param {string} url
 * @param {{form?: FormData}} what
 */
async function refresh(url = `${address}/work`, what = {}) {
  const typed = all("input[name=value], input[name=clamp], input[name=name]", HTMLInputElement, bench).map((each) => [each.id, each.value]);
  const at = document.activeElement instanceof HTMLElement ? document.activeElement.id : "";
  const scrolled = window.scrollY;
  await fragment(url, bench, what);
  for (const [id, value] of typed) {
    const found = field(id ?? "");
    if (found && value) found.value = value;
  }
  const again = at ? document.getElementById(at) : null;
  again?.focus({ preventScroll: true });
  window.scrollTo({ top: scrolled });
}

bench.addEventListener("submit", (event) => {
  const form = event.target;
  if (!(form instanceof HTMLFormElement) || form.action.endsWith("/sign")) return;
  event.preventDefault();
  void done(form);
});

/** @param {HTMLFormElement} form */
async function done(form) {
  if (busy) return;
  busy = true;
  try {
    const told = new FormData(form);
    told.set("part", "yes");
    const value = form.elements.namedItem("value");
    const typed = value instanceof HTMLInputElement ? value.value : "";
    if (value instanceof HTMLInputElement) value.value = "";
    await refresh(form.action, { form: told }).catch((fault) => {
      if (value instanceof HTMLInputElement) value.value = typed;
      throw fault;
    });
    say("kept", "done");
    if (value instanceof HTMLInputElement) next(value.id);
  } catch (fault) {
    if (!(fault instanceof Fault)) throw fault;
    say(fault.message, "fault");
  } finally {
    busy = false;
  }
}

/** @param {string} id on to the next reading, as one goes down a gauge's list */
function next(id) {
  const readings = all("input.read", HTMLInputElement, bench);
  const place = readings.findIndex((each) => each.id === id);
  readings[place + 1]?.focus();
}

// ------------------------------------------------------------------------------------------------------- keypad

bench.addEventListener("focusin", (event) => {
  if (!(event.target instanceof HTMLInputElement) || event.target.name !== "value") return;
  reading = event.target.id;
  keypad.hidden = !window.matchMedia("(pointer: coarse)").matches && !keypad.classList.contains("asked");
});

keypad.addEventListener("click", (event) => {
  const key = event.target instanceof HTMLButtonElement ? event.target.dataset.key : undefined;
  const typed = field(reading);
  if (!key || !typed) return;
  if (key === "enter") typed.form?.requestSubmit();
  else if (key === "back") typed.value = typed.value.slice(0, -1);
  else typed.value += key;
});

shortcut("k", "Keys for readings on the screen", () => {
  keypad.classList.toggle("asked");
  keypad.hidden = !keypad.classList.contains("asked");
  field(reading)?.focus();
});
shortcut("j", "To the next step that is not done", () => {
  all(".tick-button[aria-pressed=false]", HTMLButtonElement, bench)[0]?.focus();
});
shortcut("m", "To the next reading", () => {
  const open = all("input.read", HTMLInputElement, bench);
  (open.find((each) => !each.closest(".reading")?.querySelector(".verdict b")) ?? open[0])?.focus();
});

// ------------------------------------------------------------------------------------------------ others' work

setInterval(() => {
  if (!busy && !document.hidden) void refresh().catch(() => undefined);
}, EVERY);
