// What an exhibit keeps, in two slots that are written in turn. Each carries a
// number that grows and a checksum over all of it, so that a write cut short
// by a power failure leaves the one before it. Where storage is forbidden or
// full the value is kept in memory, until the page is closed.

export class Store {
  #memory = /** @type {unknown} */ (null);
  #number = 0;

  /**
   * @param {string} name
   * @param {() => Storage} storage asked anew each time, because asking may be refused
   */
  constructor(name, storage = () => localStorage) {
    this.name = name;
    this.storage = storage;
    /** Whether the last write went to the storage. */
    this.kept = true;
  }

  /** The last value that was written whole; null for none. @returns {any} */
  read() {
    const whole = [0, 1].map((slot) => this.#slot(slot)).filter((found) => found !== null);
    const last = whole.sort((a, b) => b.number - a.number)[0];
    if (!last || last.number < this.#number) return this.#memory;
    this.#number = last.number;
    this.#memory = last.value;
    return last.value;
  }

  /** @param {unknown} value */
  write(value) {
    this.read(); // another window may have written
    this.#memory = value;
    this.#number += 1;
    const body = `${this.#number} ${JSON.stringify(value)}`;
    try {
      this.storage().setItem(`${this.name}-${this.#number % 2}`, `${checksum(body)} ${body}`);
      this.kept = true;
    } catch { this.kept = false; }
  }

  /** @param {number} slot */
  #slot(slot) {
    try {
      const text = this.storage().getItem(`${this.name}-${slot}`) ?? "";
      const sum = text.slice(0, 8), body = text.slice(9);
      if (sum !== checksum(body)) return null;
      const cut = body.indexOf(" ");
      return { number: Number(body.slice(0, cut)), value: JSON.parse(body.slice(cut + 1)) };
    } catch { return null; }
  }
}

/**
 * Eight hexadecimal digits over a text: FNV-1a, 32 bits.
 * @param {string} text
 */
export function checksum(text) {
  let sum = 0x811c9dc5;
  for (const byte of new TextEncoder().encode(text)) sum = Math.imul(sum ^ byte, 0x01000193) >>> 0;
  return sum.toString(16).padStart(8, "0");
}
