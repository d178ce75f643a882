// How often the exhibit was used: visits begun and scenes finished, by
// language. Counts and nothing else; nothing in them is about anybody.

/** @typedef {{what: string, scene: string, language: string, count: number}} Row */

/** What is counted, in the order of the list. */
const whats = ["begun", "finished"];

export class Counts {
  /** @type {Row[]} */
  #rows = [];

  /** @param {any} kept */
  constructor(kept) {
    for (const row of Array.isArray(kept) ? kept : []) {
      const sound = whats.includes(row?.what) && typeof row.scene === "string" && typeof row.language === "string"
        && Number.isSafeInteger(row.count) && row.count > 0;
      if (sound) this.#rows.push({ what: row.what, scene: row.scene, language: row.language, count: row.count });
    }
  }

  /** A visit has begun. @param {string} language */
  begun(language) { this.#add("begun", "", language); }

  /** A scene has been answered and seen to its end. @param {string} scene @param {string} language */
  finished(scene, language) { this.#add("finished", scene, language); }

  /** @param {string} what @param {string} scene @param {string} language */
  #add(what, scene, language) {
    let row = this.#rows.find((r) => r.what === what && r.scene === scene && r.language === language);
    if (!row) this.#rows.push(row = { what, scene, language, count: 0 });
    row.count += 1;
    this.#rows.sort((a, b) => whats.indexOf(a.what) - whats.indexOf(b.what) || compare(a.scene, b.scene) || compare(a.language, b.language));
  }

  reset() { this.#rows = []; }

  /** @returns {Row[]} */
  get rows() { return this.#rows.map((row) => ({ ...row })); }

  /** As a file: RFC 4180, with a head. */
  get csv() {
    return ["what,scene,language,count", ...this.#rows.map((r) => [r.what, r.scene, r.language, r.count].join(","))].map((line) => `${line}\r\n`).join("");
  }
}

/** @param {string} a @param {string} b */
const compare = (a, b) => (a < b ? -1 : Number(a > b));
