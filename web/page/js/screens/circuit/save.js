// A text as a file that the browser saves.
import { make } from "../../dom.js";

/**
 * @param {string} name
 * @param {string} type
 * @param {string} text
 */
export function save(name, type, text) {
  const link = make("a", { href: URL.createObjectURL(new Blob([text], { type })), download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
}
