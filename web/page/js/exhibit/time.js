// The exhibit's clock. It is the browser's monotonic one, so that setting the
// computer's clock changes nothing. `pace=4` or `pace=16` in the address lets
// all the exhibit's times pass so many times faster, for staff and for tests.

const asked = Number(new URLSearchParams(location.search).get("pace"));

/** Seconds of the exhibit to one of the browser's; the machine runs as fast. */
export const pace = [4, 16].includes(asked) ? asked : 1;

/** Seconds that have passed for the exhibit since the page was opened. */
export const now = () => performance.now() / 1000 * pace;

/**
 * Does something after so many seconds.
 * @param {number} seconds
 * @param {() => void} deed
 */
export const after = (seconds, deed) => setTimeout(deed, 1000 * seconds / pace);

/** Words a second that somebody reads standing up. */
const wordsASecond = 200 / 60;

/**
 * Seconds it takes to read a text.
 * @param {string} text
 */
export const reading = (text) => text.split(/\s+/).filter(Boolean).length / wordsASecond;
