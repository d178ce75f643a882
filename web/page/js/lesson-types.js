// The shapes of an open lesson, as the tutor hands them out. Types only.

/** @typedef {{text: string, strong?: boolean, emph?: boolean, code?: boolean, fact?: boolean, href?: string}} Piece */
/** @typedef {{kind: "paragraph"|"bullet"|"numbered", runs: Piece[]}} Paragraph */
/** @typedef {{id: string, text: string, right?: boolean, because?: Paragraph[]}} Choice */
/** @typedef {{part: string, time_s: number, text: string}} Light */

/**
 * How the question is answered; which fields there are depends on the kind.
 * @typedef {object} Task
 * @property {boolean} [several]
 * @property {Choice[]} [floors]
 * @property {Choice[]} [stands]
 * @property {Choice[]} [parts]
 * @property {string} [unit]
 * @property {string} [tolerance]
 * @property {number} [span_s]
 */

/**
 * All that is shown of an open lesson. What the present state keeps hidden is
 * not in it.
 * @typedef {object} Lesson
 * @property {string} id
 * @property {string} title
 * @property {string} itemTitle
 * @property {string} [language] of its texts where it is another than the page's
 * @property {number} item 1 is the first
 * @property {number} items without those for review
 * @property {number} review which item for review, 0 for none of them
 * @property {number} reviews
 * @property {string[]} aims
 * @property {{id: string, word: string, means: string}[]} terms
 * @property {"lead-in"|"asked"|"committed"|"running"|"paused"|"observe"|"explained"|"done"} state
 * @property {string} kind
 * @property {Paragraph[]} caution
 * @property {Paragraph[]} lead
 * @property {Paragraph[]} question
 * @property {Task | null} task null in a worked item and before the frozen frame
 * @property {Choice[]} options
 * @property {string} chosen
 * @property {string} said the answer chosen, in words
 * @property {number} sure
 * @property {boolean} committed
 * @property {string} seen what the learner is about to say happened
 * @property {number} segment segments of the run that are over
 * @property {number} segments
 * @property {Paragraph[]} notes
 * @property {{id: string, said: string, right: boolean, text: string} | null} observed
 * @property {{id: string, text: string} | null} outcome
 * @property {{right: boolean, text: string} | null} verdict
 * @property {Paragraph[]} explanation
 * @property {Light[]} chain
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
