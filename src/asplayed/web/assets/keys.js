// @ts-check
/** Keyboard shortcuts: single keys, and keys one after another; they rest while somebody types. */

/** @typedef {{keys: string, what: string, action: () => void}} Shortcut */

/** @type {Shortcut[]} */
const shortcuts = [];
let typed = "";
let waiting = 0;

/** Keys that were the beginning of nothing are forgotten after a while. */
function forgotten() {
  window.clearTimeout(waiting);
  waiting = window.setTimeout(() => (typed = ""), 1200);
}

/**
 * Give an action a key (`j`, `Escape`) or keys typed one after another (`g s`); the list on `?` shows what it does.
 * @param {string} keys
 * @param {string} what
 * @param {() => void} action
 */
export function shortcut(keys, what, action) {
  if (shortcuts.length === 0) document.addEventListener("keydown", pressed);
  shortcuts.push({ keys, what, action });
}

/** Every shortcut of this page, in the order they were given. */
export function listed() {
  return shortcuts.map(({ keys, what }) => ({ keys, what }));
}

/** @param {KeyboardEvent} event */
function pressed(event) {
  if (event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented || event.isComposing) return;
  const at = event.target;
  if (at instanceof HTMLElement && at.closest("input:not([type=radio], [type=checkbox], [type=range]), textarea, select, [contenteditable], dialog[open]")) return;
  typed = `${typed} ${event.key}`.trim();
  const found = shortcuts.find(({ keys }) => keys === typed) ?? shortcuts.find(({ keys }) => keys === event.key);
  if (found) {
    typed = "";
    event.preventDefault();
    found.action();
  } else if (!shortcuts.some(({ keys }) => keys.startsWith(`${typed} `))) {
    typed = shortcuts.some(({ keys }) => keys.startsWith(`${event.key} `)) ? event.key : "";
  } else {
    forgotten();
  }
}
