// What the browser keeps for this reader. Storage may be forbidden or full:
// then nothing is remembered, and nothing else is different.

/**
 * @param {string} name
 * @returns {any} null where nothing is kept
 */
export function recall(name) {
  try { return JSON.parse(localStorage.getItem(name) ?? "null"); } catch { return null; }
}

/**
 * @param {string} name
 * @param {unknown} value null forgets
 */
export function keep(name, value) {
  try {
    if (value === null) localStorage.removeItem(name);
    else localStorage.setItem(name, JSON.stringify(value));
  } catch { /* not remembered */ }
}
