// @ts-check
/** Choose: the page asks by itself how far a search is, until the answer stands there. */

import { $, fragment, say, Fault } from "./common.js";

const answer = $("#answer", HTMLElement);
const EVERY = 700; // ms
const address = answer.dataset.address ?? "";
const search = answer.dataset.search ?? "";

async function ask() {
  if (!document.getElementById("waiting")) return;
  try {
    await fragment(`${address}/${encodeURIComponent(search)}`, answer);
    if (!document.getElementById("waiting")) say("the answer is there", "done");
  } catch (fault) {
    if (!(fault instanceof Fault)) throw fault;
    say(fault.message, "fault");
    return;
  }
  setTimeout(ask, EVERY);
}
setTimeout(ask, EVERY);
