// A button that is heard when it goes down, not when it is let go: whoever taps
// along with a lamp means that instant.

/**
 * @param {HTMLButtonElement} button
 * @param {(time: number) => void} deed is given the instant of the press, milliseconds of the page's own clock
 */
export function press(button, deed) {
  let heard = false; // the press of which a click may still come
  const hear = (/** @type {Event} */ event) => { heard = true; deed(event.timeStamp); };
  const forget = () => { heard = false; };
  button.addEventListener("pointerdown", (event) => { if (event.button === 0 && !button.disabled) hear(event); });
  button.addEventListener("pointerleave", forget);
  button.addEventListener("pointercancel", forget);
  button.addEventListener("keydown", (event) => {
    if ((event.key !== " " && event.key !== "Enter") || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    if (!event.repeat) hear(event);
  });
  button.addEventListener("keyup", () => setTimeout(forget));
  button.addEventListener("click", (event) => {
    // One that comes without either is from a reader of screens.
    if (!heard) deed(event.timeStamp);
    forget();
  });
}
