// @ts-check
/** The set: a figure's derivation beside the table, a change typed where the figure stands, others' changes seen. */

import { $, element, fragment, recall, remember, say, send, shortcut, Fault } from "./common.js";

const set = $("#set", HTMLElement);
const dialog = $("#why", HTMLDialogElement);
const body = $("#why-body", HTMLElement);
const newer = $("#newer", HTMLElement);
const name = set.dataset.name ?? "";
const address = `/sets/${encodeURIComponent(name)}`;
const EVERY = 4000; // ms between two looks for somebody else's change

// ------------------------------------------------------------------------------------------------- derivations

set.addEventListener("click", (event) => {
  const link = event.target instanceof Element ? event.target.closest("a.figure") : null;
  if (!(link instanceof HTMLAnchorElement) || event.ctrlKey || event.metaKey || event.shiftKey) return;
  event.preventDefault();
  void derive(link);
});

/** @param {HTMLAnchorElement} link */
async function derive(link) {
  try {
    await fragment(`${link.pathname}${link.search}&part=true`, body);
    dialog.showModal();
  } catch (fault) {
    if (fault instanceof Fault) say(fault.message, "fault");
  }
}
dialog.addEventListener("click", (event) => {
  if (event.target === dialog) dialog.close();
});

// --------------------------------------------------------------------------------------------- changes in place

/** @param {HTMLTableCellElement} cell */
function open(cell) {
  const edit = document.getElementById("edit");
  if (!(edit instanceof HTMLFormElement) || !cell.dataset.begins || cell.querySelector("form")) return;
  const form = element("form", { method: "post", action: `${address}/edit`, class: "in-place" });
  const hidden = (/** @type {string} */ key, /** @type {string} */ value) => element("input", { type: "hidden", name: key, value });
  const token = edit.elements.namedItem("csrf");
  const typed = element("input", {
    name: "typed",
    maxlength: "120",
    autocomplete: "off",
    required: "",
    placeholder: cell.dataset.example ?? "",
    "aria-label": `${cell.dataset.begins} of the ${cell.dataset.club}: what it is to become`,
  });
  form.append(
    hidden("csrf", token instanceof HTMLInputElement ? token.value : ""),
    hidden("based_on", set.dataset.version ?? ""),
    hidden("club", cell.dataset.club ?? ""),
    hidden("begins", cell.dataset.begins),
    typed,
  );
  const close = () => {
    form.remove();
    const link = cell.querySelector("a.figure");
    if (link instanceof HTMLElement) link.focus();
  };
  typed.addEventListener("keydown", (event) => {
    if (event.key === "Escape") close();
  });
  typed.addEventListener("blur", () => {
    if (!typed.value.trim()) form.remove();
  });
  cell.append(form);  // over the figure: the table keeps its columns
  typed.focus();
}

/** @param {EventTarget | null} at */
function cellOf(at) {
  const cell = at instanceof Element ? at.closest("td[data-begins]") : null;
  return cell instanceof HTMLTableCellElement ? cell : null;
}
set.addEventListener("dblclick", (event) => {
  const cell = cellOf(event.target);
  if (cell) {
    dialog.close();
    open(cell);
  }
});
shortcut("c", "Change the figure in hand where it stands", () => {
  const cell = cellOf(document.activeElement) ?? cellOf(set.querySelector("td[data-begins]"));
  if (cell) open(cell);
});
shortcut("e", "Write a change", () => document.getElementById("changes")?.focus());
shortcut("u", "Undo", () => document.getElementById("undo")?.click());
shortcut("r", "Redo", () => document.getElementById("redo")?.click());

// arrows go from figure to figure, as in a sheet of paper ruled into boxes
set.addEventListener("keydown", (event) => {
  const steps = { ArrowUp: { line: -1, place: 0 }, ArrowDown: { line: 1, place: 0 }, ArrowLeft: { line: 0, place: -1 }, ArrowRight: { line: 0, place: 1 } };
  const step = steps[/** @type {keyof typeof steps} */ (event.key)];
  const at = event.target instanceof Element ? event.target.closest("a.figure") : null;
  const cell = at?.closest("td");
  const row = cell?.parentElement;
  if (!step || !(cell instanceof HTMLTableCellElement) || !(row instanceof HTMLTableRowElement)) return;
  const rows = row.closest("table")?.rows;
  let place = cell.cellIndex + step.place;
  let line = row.rowIndex + step.line;
  for (; rows && rows[line] && rows[line]?.cells[place]; place += step.place, line += step.line) {
    const next = rows[line]?.cells[place]?.querySelector("a.figure");
    if (next instanceof HTMLElement) {
      event.preventDefault();
      next.focus();
      return;
    }
  }
});

// ------------------------------------------------------------------------------------- what others do meanwhile

async function look() {
  if (document.hidden) return;
  try {
    const now = await send(`/api${address}/since/${set.dataset.version ?? "0"}`);
    if (!now.newer) return;
    window.clearInterval(looking);
    const list = element("ul");
    for (const sentence of now.said) list.append(element("li", {}, element("bdi", {}, sentence)));
    const what = now.hidden ? " took this set out of use." : ` stored version ${now.version} meanwhile:`;
    newer.replaceChildren(
      element("p", {}, element("bdi", {}, now.who), what),
      list,
      element("a", { href: now.hidden ? "/" : address, class: "tool" }, now.hidden ? "To the sets" : "Show it"),
    );
    newer.hidden = false;
  } catch {
    // The server is away for a moment: the page stays as it is, and the next look comes.
  }
}
const looking = window.setInterval(() => void look(), EVERY);

if (set.dataset.kept && recall("draft of a list")) remember("draft of a list", undefined);
