// Three small helpers for building elements from words, never from markup.

/**
 * An element of the page that must be there.
 * @template {HTMLElement} T
 * @param {string} id
 * @returns {T}
 */
export function the(id) {
  const element = document.getElementById(id);
  if (!element) throw new Error(`the page has no #${id}`);
  return /** @type {T} */ (element);
}

/**
 * A new element with properties, data and children.
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} name
 * @param {Record<string, unknown>} [attributes] `on…` functions listen, the rest become attributes; false leaves one out
 * @param {...(Node | string)} children
 * @returns {HTMLElementTagNameMap[K]}
 */
export function make(name, attributes = {}, ...children) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (typeof value === "function") element.addEventListener(key.slice(2), /** @type {EventListener} */ (value));
    else if (value === true) element.setAttribute(key, "");
    else if (value !== false && value !== undefined) element.setAttribute(key, String(value));
  }
  element.append(...children);
  return element;
}

/**
 * Sets a text only when it changed, so that live regions stay silent.
 * @param {Element} element
 * @param {string} text
 */
export function say(element, text) {
  if (element.textContent !== text) element.textContent = text;
}

/**
 * The value of a group of radio buttons, set or read.
 * @param {Element} group
 * @param {string} [value]
 * @returns {string}
 */
export function radio(group, value) {
  const inputs = [...group.querySelectorAll("input")];
  if (value !== undefined) for (const input of inputs) input.checked = input.value === value;
  return inputs.find((input) => input.checked)?.value ?? "";
}
