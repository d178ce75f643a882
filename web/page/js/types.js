// The shapes that pass between the page and the stage frame. Types only.

/**
 * The machine's state, with the names and values of the trace.
 * @typedef {object} Snapshot
 * @property {number} time_s
 * @property {{position_m: number, speed_m_s: number, stop: string, door: string}} car
 * @property {Record<string, number>} calls by floor, 0 or 1
 * @property {Record<string, number>} lamps by floor, 0 or 1
 * @property {Record<string, number>} relays by name, 0 or 1
 * @property {Record<string, string>} switches by floor: above, between, below
 * @property {Record<string, number>} [rim] centre contacts by floor
 * @property {Record<string, number>} [advance_up]
 * @property {Record<string, number>} [advance_down]
 */

/**
 * @typedef {object} Building
 * @property {string} name
 * @property {{name: string, height_m: number}[]} floors lowest first
 * @property {string} [id] of a building that ships
 * @property {string[]} warnings sentences
 */

/**
 * What the transport shows. The stage is the judge of what may be done now.
 * @typedef {object} Clock
 * @property {number} time_s
 * @property {boolean} running
 * @property {number} speed
 * @property {boolean} canRun
 * @property {boolean} canStep
 * @property {boolean} canCall
 * @property {string} said the last causal step in words
 * @property {number} saidCount grows with each step said
 * @property {string} chosen the chosen part, "" for none
 */

/**
 * One fault of a file.
 * @typedef {object} FileError
 * @property {number} line 1 is the first; 0 where there is no place
 * @property {number} column
 * @property {string} text
 */

/** @typedef {{id: string, name: string}} Part */
/** @typedef {{name: string, state: string, text: string}} PartText */

/**
 * @typedef {object} Lesson
 * @property {string} id
 * @property {string} title
 * @property {number} item 1 is the first
 * @property {number} items
 * @property {"lead-in"|"asked"|"committed"|"running"|"paused"|"observe"|"explained"|"done"} state
 * @property {string} lead
 * @property {string} question
 * @property {{id: string, text: string}[]} options
 * @property {string} chosen
 * @property {boolean} committed
 * @property {number} segment 1 is the first; 0 before the run
 * @property {number} segments
 * @property {{text: string}} [outcome]
 * @property {string} [observed]
 * @property {string} [verdict]
 * @property {string[]} [explanation]
 * @property {boolean} canRun
 * @property {boolean} canStep
 */

export {};
