// @ts-check
/** Take in: read what is typed, answer with one key, keep the draft until it is stored. */

import { $, fragment, later, recall, remember, say, shortcut, Fault } from "./common.js";

const form = $("#taking", HTMLFormElement);
const text = $("#text", HTMLTextAreaElement);
const name = $("#as", HTMLInputElement);
const file = $("#list", HTMLInputElement);
const reading = $("#reading", HTMLElement);
const DRAFT = "draft of a list";

/** @type {AbortController | undefined} the reading under way: a newer one makes it pointless */
let underWay;

/** @returns {[string, string][]} every answer given so far, as its field and value */
function answers() {
  return [...reading.querySelectorAll("input[type=hidden]")].map((field) =>
    field instanceof HTMLInputElement ? [field.name, field.value] : ["", ""],
  );
}

function keepDraft() {
  remember(DRAFT, text.value.trim() ? { text: text.value, name: name.value, answers: answers() } : undefined);
}

/** @param {[string, string][]} more what was just answered, or taken back */
async function read(...more) {
  underWay?.abort();
  underWay = new AbortController();
  const sent = new FormData(form);
  sent.delete("list");
  for (const [field, value] of more) sent.append(field, value);
  const at = focused();
  try {
    await fragment("/take/reading", reading, { form: sent, signal: underWay.signal });
    keepDraft();
    refocus(at);
  } catch (fault) {
    if (fault instanceof Fault) say(fault.message, "fault");
  }
}

/** @returns {number} the place of the question that has the focus; -1 where none has */
function focused() {
  const at = document.activeElement?.closest(".question");
  return at ? [...reading.querySelectorAll(".question")].indexOf(at) : -1;
}

/** @param {number} place go on with the question that came into the place of the answered one */
function refocus(place) {
  if (place < 0) return;
  const questions = [...reading.querySelectorAll(".question")];
  const next = questions[Math.min(place, questions.length - 1)]?.querySelector("button, input");
  const end = document.getElementById("keep");
  const to = next ?? end;
  if (to instanceof HTMLElement) to.focus();
}

const soon = later(180, () => void read());
text.addEventListener("input", soon);
name.addEventListener("input", soon);

form.addEventListener("submit", (event) => {
  const pressed = event.submitter;
  keepDraft();
  if (!(pressed instanceof HTMLButtonElement) || pressed.name === "do") return;
  event.preventDefault();
  void read([pressed.name, pressed.value]);
});

reading.addEventListener("keydown", (event) => {
  const at = event.target;
  if (!(at instanceof HTMLInputElement) || event.key !== "Enter") return;
  event.preventDefault();
  void read();
});

file.addEventListener("change", () => {
  if (file.files?.length) form.requestSubmit();
});
for (const kind of ["dragover", "drop"]) {
  form.addEventListener(kind, (event) => {
    if (!(event instanceof DragEvent) || !event.dataTransfer?.types.includes("Files")) return;
    event.preventDefault();
    if (kind === "drop" && event.dataTransfer.files.length) {
      file.files = event.dataTransfer.files;
      form.requestSubmit();
    }
  });
}

for (let digit = 1; digit <= 9; digit += 1) {
  shortcut(String(digit), `Answer the question in hand with its answer ${digit}`, () => {
    const questions = [...reading.querySelectorAll(".question")];
    const answer = questions[Math.max(0, focused())]?.querySelectorAll("button.answer")[digit - 1];
    if (answer instanceof HTMLButtonElement) {
      answer.focus();
      answer.click();
    }
  });
}
shortcut("e", "Write on in the list", () => text.focus());
shortcut("k", "Keep the list", () => document.getElementById("keep")?.click());
text.addEventListener("keydown", (event) => {
  if (event.key !== "Escape") return;
  const first = reading.querySelector(".question button, .question input") ?? document.getElementById("keep");
  if (first instanceof HTMLElement) first.focus();
});

const draft = recall(DRAFT);
if (draft && !text.value) {
  text.value = draft.text;
  name.value = draft.name;
  void read(...(draft.answers ?? []));
}
