// @ts-check
/** Point one club out in every picture and table of the page at once: by pointer, by the row of clubs, or by keys. */

import { $, all, shortcut } from "./common.js";

const form = $("#pointer", HTMLFormElement);
const told = $("#pointed", HTMLOutputElement);
const choices = all('input[name="club"]', HTMLInputElement, form);
const marked = all("[data-club]", Element);
const pictures = all(".picture", HTMLElement);
form.hidden = false;

/** @param {string} club its label; nothing for all of them */
function show(club) {
  for (const each of marked) each.classList.toggle("here", club !== "" && each.getAttribute("data-club") === club);
  for (const each of pictures) each.classList.toggle("pointing", club !== "" && each.querySelector(".here") !== null);
}

function chosen() {
  return choices.find((each) => each.checked) ?? choices[0];
}

/** Choose a club for good, and say what it does. @param {HTMLInputElement | undefined} choice */
function choose(choice) {
  if (!choice) return;
  choice.checked = true;
  show(choice.value);
  told.textContent = choice.dataset.told ?? "";
}

/** @param {number} way 1 for the next club, -1 for the one before */
function step(way) {
  const here = choices.findIndex((each) => each.checked);
  choose(choices[(here + way + choices.length) % choices.length]);
}

/** The label of the club that something on the page belongs to. @param {EventTarget | null} at */
function labelled(at) {
  return at instanceof Element ? (at.closest("[data-club]")?.getAttribute("data-club") ?? null) : null;
}

form.addEventListener("change", () => choose(chosen()));
form.addEventListener("submit", (event) => event.preventDefault());
for (const picture of pictures) {
  picture.addEventListener("pointerover", (event) => {
    const club = labelled(event.target);
    if (club !== null) show(club);
  });
  picture.addEventListener("pointerleave", () => show(chosen()?.value ?? ""));
  picture.addEventListener("click", (event) => {
    const club = labelled(event.target);
    if (club !== null && !(event.target instanceof Element && event.target.closest("a"))) choose(choices.find((each) => each.value === club));
  });
}
shortcut("j", "Point out the next club", () => step(1));
shortcut("k", "Point out the club before", () => step(-1));
shortcut("Escape", "Point out none", () => choose(choices[0]));
choose(chosen());
