// @ts-check
/** On every page: the keys that lead from job to job, their list on `?`, and printing. */

import { all, element, listed, shortcut } from "./common.js";

for (const link of all("a[data-keys]", HTMLAnchorElement)) {
  const keys = link.dataset.keys ?? "";
  if (keys) shortcut(keys, link.dataset.what ?? (link.textContent ?? "").trim(), () => link.click());
}
shortcut("P", "Print this page", () => window.print());
shortcut("/", "To the first field of this page", () => {
  const field = all("main input:not([type=hidden], [type=radio], [type=checkbox]), main textarea, main select", HTMLElement).find((each) => each.offsetParent !== null);
  field?.focus();
});
shortcut("?", "This list", list);

/** Show every key of this page in a dialog. */
function list() {
  const dialog = document.getElementById("keys") ?? document.body.appendChild(element("dialog", { id: "keys", "aria-labelledby": "keys-title" }));
  if (!(dialog instanceof HTMLDialogElement) || dialog.open) return;
  const rows = listed().flatMap(({ keys, what }) => {
    const pressed = keys.split(" ").flatMap((key, place) => (place ? [" then ", element("kbd", {}, key)] : [element("kbd", {}, key)]));
    return [element("dt", {}, ...pressed), element("dd", {}, what)];
  });
  const close = element("button", { type: "button" }, "Close");
  close.addEventListener("click", () => dialog.close());
  dialog.replaceChildren(
    element("h2", { id: "keys-title" }, "Keys on this page"),
    element("dl", { class: "keys" }, ...rows),
    element("p", { class: "quiet small" }, "They rest while you type in a field. Escape closes what is open."),
    close,
  );
  dialog.showModal();
}

const button = document.getElementById("keys-listed");
if (button) {
  button.hidden = false;
  button.addEventListener("click", list);
}

for (const region of all(".top nav, .second", HTMLElement)) {
  region.querySelector("[aria-current]")?.scrollIntoView({ block: "nearest", inline: "center" });
}
