// How bright a lamp is whose filament takes its time: the same law as in the
// program's own lamp.

/** @typedef {{riseS: number, fallS: number}} Filament seconds from cold to nine tenths, and from hot to one tenth */

/**
 * Brightness after a time fed, or not fed.
 * @param {Filament} lamp
 * @param {number} from
 * @param {boolean} fed
 * @param {number} time
 */
function after(lamp, from, fed, time) {
  return fed ? 1 - (1 - from) * 10 ** (-time / lamp.riseS) : from * 10 ** (-time / lamp.fallS);
}

/**
 * Brightness at an instant, 0 to 1, of a lamp that was cold before the first
 * of the instants at which it is fed and cut off in turn.
 * @param {Filament} lamp
 * @param {number[]} changes seconds
 * @param {number} time
 */
export function brightness(lamp, changes, time) {
  let last = -Infinity, now = 0, fed = false;
  for (const at of changes) {
    if (at > time) break;
    if (last > -Infinity) now = after(lamp, now, fed, at - last);
    last = at;
    fed = !fed;
  }
  return last === -Infinity ? 0 : after(lamp, now, fed, time - last);
}
