// Light wheel, heavy wheel: the same trip with two handwheels.
import { capital, word } from "../../words.js";
import { make, say } from "../../dom.js";
import { player } from "./player.js";
import { put, room } from "./picture.js";

/** @typedef {import("./types.js").Pair} Pair */
/** @typedef {import("./types.js").Reading} Reading */

/** Figures that the sentences speak of. */
const told = ["change-jerk", "slow-down-distance", "trip-time", "handwheel-energy", "rotor-heat"];

/** @type {(keyof Reading)[]} */
const readings = ["speed", "motor", "torque", "energy", "winding"];

/** @param {(selector: string) => HTMLElement} find in the screen */
export function pairView(find) {
  const places = { time: find("#drive-clock"), light: find("#drive-torque-light"), heavy: find("#drive-torque-heavy") };
  /** @type {((time: number) => void)[]} */
  let movers = [];
  const play = player(find('[data-player="pair"]'), (time) => movers.forEach((move) => move(time)));

  return {
    /** How wide its pictures may be. */
    size: () => ({ width: room(places.time), beside: room(places.light) }),
    pause: play.pause,
    /** @param {Pair} pair */
    show(pair) {
      find("#drive-say").replaceChildren(...pair.say.map((text) => make("p", {}, text)));
      const time = put(places.time, pair.time);
      movers = [];
      const tick = pair.clock.tickS;
      if (time) movers.push(time.cursor());
      for (const which of /** @type {const} */ (["light", "heavy"])) {
        const side = pair[which];
        const on = time?.runner(side.speed, `runner ${which}`, 6);
        const torque = put(places[which], side.torque)?.runner(side.path, `runner ${which}`, 7);
        movers.push((at) => { on?.(at / tick); torque?.(at / tick); });
      }
      movers.push(now(pair));
      table(pair);
      play.load(pair.clock);
    },
  };

  /** The readings of both at an instant. @param {Pair} pair */
  function now(pair) {
    find("#drive-now thead").replaceChildren(make("tr", {}, make("td"), make("th", { scope: "col" }, capital(pair.light.name)), make("th", { scope: "col" }, capital(pair.heavy.name))));
    const rows = readings.map((key) => {
      const cells = [make("td"), make("td")];
      return { key, cells, row: make("tr", { "data-key": key }, make("th", { scope: "row" }, word(`drive-screen.${key}`)), ...cells) };
    });
    find("#drive-now tbody").replaceChildren(...rows.map(({ row }) => row));
    return (/** @type {number} */ time) => {
      const tick = Math.ceil(time / pair.clock.tickS - 1e-6);
      for (const { key, cells } of rows) {
        [pair.light, pair.heavy].forEach((side, i) => say(cells[i], side.now[Math.min(tick, side.now.length - 1)]?.[key] ?? ""));
      }
    };
  }

  /** @param {Pair} pair */
  function table(pair) {
    find("#drive-both thead").replaceChildren(make("tr", {}, make("th", { scope: "col" }, word("drive-screen.figure")),
      make("th", { scope: "col", class: "amount" }, capital(pair.light.name)), make("th", { scope: "col", class: "amount" }, capital(pair.heavy.name))));
    find("#drive-both tbody").replaceChildren(...pair.table.map((row) => make("tr", { "data-key": row.key, class: told.includes(row.key) ? "told" : "" },
      make("th", { scope: "row" }, row.name), make("td", { class: "amount" }, row.light), make("td", { class: "amount" }, row.heavy))));
  }
}
