// @ts-check
/** Find a set among many: rows that do not hold every word typed are left out. */

import { $, all } from "./common.js";

const field = $("#sifted", HTMLInputElement);
const rows = all("#sets tbody tr", HTMLTableRowElement);
$("#sift", HTMLElement).hidden = rows.length < 2;

field.addEventListener("input", () => {
  const words = field.value.toLowerCase().split(/\s+/).filter(Boolean);
  for (const row of rows) row.hidden = !words.every((word) => (row.textContent ?? "").toLowerCase().includes(word));
  $("#none", HTMLElement).hidden = rows.some((row) => !row.hidden);
});
field.addEventListener("keydown", (event) => {
  const left = rows.filter((row) => !row.hidden);
  if (event.key === "Enter" && left.length === 1) left[0]?.querySelector("a")?.click();
});
