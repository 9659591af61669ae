// @ts-check
/** What the scripts of every page share: asking the server, saying what happened, drafts; and the keys of keys.js. */

export { listed, shortcut } from "./keys.js";

/** A request that was refused; its message is the server's own sentence. */
export class Fault extends Error {
  /**
   * @param {string} sentence
   * @param {number} status the HTTP status, 0 where no answer came
   * @param {Record<string, unknown>} answer the whole answer, for what stands beside the sentence
   */
  constructor(sentence, status, answer = {}) {
    super(sentence);
    this.status = status;
    this.answer = answer;
  }
}

/**
 * The one element a selector finds; throws where there is none, for a page and its script belong together.
 * @template {Element} T
 * @param {string} selector
 * @param {new () => T} type
 * @param {ParentNode} within
 * @returns {T}
 */
export function $(selector, type, within = document) {
  const found = within.querySelector(selector);
  if (!(found instanceof type)) throw new Error(`no ${type.name} ${selector} on this page`);
  return found;
}

/**
 * Every element a selector finds that is of the type.
 * @template {Element} T
 * @param {string} selector
 * @param {new () => T} type
 * @param {ParentNode} within
 * @returns {T[]}
 */
export function all(selector, type, within = document) {
  return [...within.querySelectorAll(selector)].filter((found) => found instanceof type).map((found) => /** @type {T} */ (found));
}

/**
 * An element with its attributes and children; text is put in as text.
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} name
 * @param {Record<string, string>} attributes
 * @param {...(Node | string)} children
 * @returns {HTMLElementTagNameMap[K]}
 */
export function element(name, attributes = {}, ...children) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(...children);
  return made;
}

/**
 * @param {string} url
 * @param {{method?: string, json?: unknown, form?: FormData | HTMLFormElement, signal?: AbortSignal}} what
 * @param {string} accept
 */
async function asked(url, what, accept) {
  const headers = new Headers({ Accept: accept });
  const token = document.querySelector('meta[name="csrf"]');
  if (token instanceof HTMLMetaElement) headers.set("X-Csrf-Token", token.content);
  /** @type {RequestInit} */
  const request = { method: what.method ?? (what.json === undefined && !what.form ? "GET" : "POST"), headers };
  if (what.signal) request.signal = what.signal;
  if (what.json !== undefined) {
    headers.set("Content-Type", "application/json");
    request.body = JSON.stringify(what.json);
  } else if (what.form) {
    request.body = what.form instanceof HTMLFormElement ? new FormData(what.form) : what.form;
  }
  try {
    return await fetch(url, request);
  } catch (reason) {
    if (reason instanceof DOMException && reason.name === "AbortError") throw reason;
    throw new Fault("the server does not answer; start it again with asplayed serve, nothing typed here is lost", 0);
  }
}

/**
 * Ask the server and answer its JSON; a refusal is thrown as a Fault with the server's sentence.
 * @param {string} url
 * @param {{method?: string, json?: unknown, form?: FormData | HTMLFormElement, signal?: AbortSignal}} what
 * @returns {Promise<any>}
 */
export async function send(url, what = {}) {
  const answer = await asked(url, what, "application/json");
  const text = await answer.text();
  let read = null;
  try {
    read = text === "" ? {} : JSON.parse(text);
  } catch {
    throw new Fault("the server answered with something that is not data; load the page again", answer.status);
  }
  if (!answer.ok) throw new Fault(String(read.fault ?? `refused (${answer.status})`), answer.status, read);
  return read;
}

/** @type {{createHTML: (text: string) => any}} the one place where text from our own server becomes markup */
const markup = /** @type {any} */ (window).trustedTypes?.createPolicy("asplayed", { createHTML: String }) ?? { createHTML: String };

/** @param {string} text a page or a piece of one, as the server sent it; scripts in it never run */
function parsed(text) {
  return new DOMParser().parseFromString(markup.createHTML(text), "text/html");
}

/**
 * Fetch a piece of a page and put it in an element, in place of what is there.
 * @param {string} url
 * @param {Element} into
 * @param {{method?: string, json?: unknown, form?: FormData | HTMLFormElement, signal?: AbortSignal}} what
 */
export async function fragment(url, into, what = {}) {
  into.setAttribute("aria-busy", "true");
  try {
    const answer = await asked(url, what, "text/html, application/json");
    const text = await answer.text();
    if (!answer.ok) {
      let sentence = `refused (${answer.status})`;
      try {
        sentence = String(JSON.parse(text).fault ?? sentence);
      } catch {
        const page = parsed(text).querySelector(".fault");
        sentence = page?.textContent?.trim() || sentence;
      }
      throw new Fault(sentence, answer.status);
    }
    into.replaceChildren(...parsed(text).body.childNodes);
  } finally {
    into.removeAttribute("aria-busy");
  }
}

/**
 * Say one sentence at the head of the page; it is read aloud too.
 * @param {string} sentence
 * @param {"done" | "fault"} kind
 */
export function say(sentence, kind = "done") {
  const place = document.getElementById("said");
  if (!place) return;
  place.className = kind;
  place.textContent = sentence;
}

/**
 * Run an action once things have been quiet for so many milliseconds.
 * @template {unknown[]} A
 * @param {number} milliseconds
 * @param {(...given: A) => void} action
 * @returns {(...given: A) => void}
 */
export function later(milliseconds, action) {
  let waiting = 0;
  return (...given) => {
    window.clearTimeout(waiting);
    waiting = window.setTimeout(() => action(...given), milliseconds);
  };
}

/**
 * Keep a value on this machine, under a key of this page's own; false where the browser keeps nothing.
 * @param {string} key
 * @param {unknown} value undefined forgets it
 */
export function remember(key, value) {
  try {
    if (value === undefined) localStorage.removeItem(`asplayed ${key}`);
    else localStorage.setItem(`asplayed ${key}`, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

/**
 * What was kept under a key; undefined where there is nothing.
 * @param {string} key
 * @returns {any}
 */
export function recall(key) {
  try {
    const kept = localStorage.getItem(`asplayed ${key}`);
    return kept === null ? undefined : JSON.parse(kept);
  } catch {
    return undefined;
  }
}
