// The shapes that pass between the page and the stage frame. Types only.

/**
 * The machine's state, with the names and values of the trace.
 * @typedef {object} Snapshot
 * @property {number} time_s
 * @property {{position_m: number, speed_m_s: number, stop: string, door: string}} car
 * @property {Record<string, number>} calls by floor, 0 or 1
 * @property {Record<string, number>} lamps by floor, 0 or 1
 * @property {Record<string, number>} relays by name, 0 or 1
 * @property {Record<string, string | number>} switches by signal: direction.F above, between or below; rim.F, advance-up.F, advance-down.F 0 or 1
 * @property {string} [stopped] why the model stopped for good
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
 * @property {number} endS how far the run has come
 * @property {boolean} looking back, at a moment before the end
 * @property {number} run another number for another run
 * @property {number} events that have happened by now
 * @property {boolean} running
 * @property {number} speed
 * @property {boolean} canRun
 * @property {boolean} canStep
 * @property {boolean} canBack
 * @property {boolean} canCall
 * @property {boolean} canUndo a run was set aside
 * @property {string} said the last causal step in words
 * @property {number} saidCount grows with each step said
 * @property {string} chosen the chosen part, "" for none
 * @property {number} scale of the picture, 1 for the whole
 */

/** @typedef {{floor: string, heightM: number, fromS: number, toS: number}} Stretch toS is -1 for a call that waits */

/**
 * A whole run at a glance.
 * @typedef {object} Strip
 * @property {number} endS
 * @property {number} topM height of the highest landing
 * @property {number[][]} path seconds and metres of the car's way
 * @property {Stretch[]} stops
 * @property {Stretch[]} calls
 */

/**
 * One event of the run, in words.
 * @typedef {object} Entry
 * @property {number} event its place among all events
 * @property {number} time_s
 * @property {string} kind what stands before the point of the part's name
 * @property {string} part
 * @property {string} state
 * @property {string} text
 * @property {number} cause the event that brought it about, -1 for none
 */

/**
 * One fault of a file.
 * @typedef {object} FileError
 * @property {number} line 1 is the first; 0 where there is no place
 * @property {number} column
 * @property {string} text
 */

/** @typedef {{id: string, name: string, group: string}} Part */
/** @typedef {{call: string, floor: string, kind: ""|"up"|"down"|"car", registered: boolean}} CallButton */
/** @typedef {{name: string, state: string, text: string}} PartText */

/** @typedef {{text: string, strong?: boolean, emph?: boolean, code?: boolean, fact?: boolean, href?: string}} Piece */
/** @typedef {{kind: "paragraph"|"bullet"|"numbered", runs: Piece[]}} Paragraph */
/** @typedef {{id: string, text: string, right?: boolean, because?: Paragraph[]}} Option */

/**
 * All that is shown of an open lesson. What the present state keeps hidden is
 * not in it.
 * @typedef {object} Lesson
 * @property {string} id
 * @property {string} title
 * @property {string} itemTitle
 * @property {number} item 1 is the first
 * @property {number} items
 * @property {"lead-in"|"asked"|"committed"|"running"|"paused"|"observe"|"explained"|"done"} state
 * @property {Paragraph[]} caution
 * @property {Paragraph[]} lead
 * @property {Paragraph[]} question
 * @property {Option[]} options none in a worked item
 * @property {string} chosen
 * @property {boolean} committed
 * @property {number} segment segments of the run that are over
 * @property {number} segments
 * @property {Paragraph[]} notes
 * @property {{id: string, right: boolean, text: string} | null} observed
 * @property {{id: string, text: string} | null} outcome
 * @property {{right: boolean, text: string} | null} verdict
 * @property {Paragraph[]} explanation
 * @property {boolean} canChoose
 * @property {boolean} canCommit
 * @property {boolean} canRun
 * @property {boolean} canStep
 * @property {boolean} canContinue
 * @property {boolean} canObserve
 * @property {boolean} canRepeat
 * @property {boolean} canNext
 */

export {};
