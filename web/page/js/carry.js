// What the reader takes along into another language: the machine as it stands,
// also in the middle of a lesson. It lasts for the one step, in this tab.

const name = "carried";

/** Where a page leads to, whatever its language. */
const where = () => location.search + location.hash;

/**
 * Keeps the record when the reader leaves for another language.
 * @param {() => object | null} record
 */
export function carry(record) {
  document.getElementById("languages")?.addEventListener("click", (event) => {
    if (!(event.target instanceof Element) || !event.target.closest("a")) return;
    try { sessionStorage.setItem(name, JSON.stringify({ where: where(), record: record() })); } catch { /* the address alone leads on */ }
  });
}

/**
 * The record that was brought here, null for none. An address that is opened
 * afterwards shows what it says.
 * @returns {object | null}
 */
export function carried() {
  try {
    const kept = JSON.parse(sessionStorage.getItem(name) ?? "null");
    sessionStorage.removeItem(name);
    return kept?.where === where() ? kept.record : null;
  } catch { return null; }
}
