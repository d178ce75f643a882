// The panel in the car, large, at exact real time from the press of a key: to
// be set beside the video of a real one.
import { make, radio, say } from "../../dom.js";
import { keep, recall } from "../../kept.js";
import { number, word } from "../../words.js";
import { lampPanel } from "./lamps.js";
import { press } from "./press.js";

/** @typedef {import("./types.js").Form} Form */
/** @typedef {import("./types.js").Ride} Ride */

const kept = "ring-ride"; // where the browser keeps which ride is watched
const fades = 3; // fall times until nothing glows any more

/**
 * @param {(selector: string) => HTMLElement} find in the screen
 * @param {(action: string, args?: object) => any} go asks the program
 * @param {(deed: () => void) => void} refuse does something that may be refused
 * @param {() => string} text of the building on the bench
 */
export function panelView(find, go, refuse, text) {
  const from = /** @type {HTMLSelectElement} */ (find("#ring-from")), to = /** @type {HTMLSelectElement} */ (find("#ring-to"));
  const kind = find("#ring-lamp"), stage = find("#ring-play"), whole = find("#ring-whole");
  const start = /** @type {HTMLButtonElement} */ (find("#ring-start"));
  const panel = lampPanel(find("#ring-panel"), word("ring-screen.panel"));
  /** @type {Ride | null} */
  let ride = null;
  let began = 0, request = 0;

  /** Works the ride out. */
  function lay() {
    stop();
    ride = null;
    keep(kept, { from: from.value, to: to.value, lamp: radio(kind) });
    refuse(() => {
      ride = /** @type {Ride} */ (go("ride", { text: text(), from: from.value, to: to.value, lamp: radio(kind) }));
      say(find("#ring-ride"), ride.says);
      panel.lay(ride.floors);
      at(0);
    });
    start.disabled = ride === null;
  }

  /** @param {number} time seconds since the car set off */
  function at(time) {
    if (!ride) return;
    panel.show({ riseS: ride.rise_s, fallS: ride.fall_s }, ride.lamps, time);
    say(find("#ring-clock"), word("ring-screen.seconds", { seconds: number(time, 1) }));
  }

  /** @param {number} time of the page's own clock */
  function toggle(time) {
    if (!ride) return;
    if (request) { stop(); say(find("#ring-play-said"), word("ring-screen.stopped")); return; }
    began = time;
    say(start.firstElementChild ?? start, word("ring-screen.stop"));
    say(find("#ring-play-said"), word("ring-screen.started"));
    request = requestAnimationFrame(frame);
  }

  /** @param {number} time */
  function frame(time) {
    if (!ride) return;
    const now = Math.max(0, (time - began) / 1000);
    at(now);
    if (now < ride.arrive_s + fades * ride.fall_s) { request = requestAnimationFrame(frame); return; }
    stop();
    at(ride.arrive_s + fades * ride.fall_s);
    say(find("#ring-clock"), word("ring-screen.seconds", { seconds: number(ride.arrive_s, 1) }));
    say(find("#ring-play-said"), word("ring-screen.arrived", { floor: ride.to }));
  }

  function stop() {
    cancelAnimationFrame(request);
    request = 0;
    say(start.firstElementChild ?? start, word("ring-screen.start"));
  }

  start.append(make("span", {}, word("ring-screen.start")), " ", make("kbd", {}, word("ring-screen.start-key")));
  press(start, toggle);
  // The key is heard while the focus is on the panel; on the button it is the button's own.
  stage.addEventListener("keydown", (event) => {
    if (event.target !== stage || event.key !== " " || event.repeat || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    toggle(event.timeStamp);
  });
  from.addEventListener("change", () => { if (from.value === to.value) to.selectedIndex = from.selectedIndex ? 0 : 1; lay(); });
  to.addEventListener("change", () => { if (to.value === from.value) from.selectedIndex = to.selectedIndex ? 0 : 1; lay(); });
  find("#ring-turn").addEventListener("click", () => { [from.value, to.value] = [to.value, from.value]; lay(); });
  kind.addEventListener("change", lay);
  whole.hidden = !document.fullscreenEnabled;
  whole.addEventListener("click", () => {
    if (document.fullscreenElement) document.exitFullscreen();
    else stage.requestFullscreen().then(() => start.focus(), () => { whole.hidden = true; });
  });
  document.addEventListener("fullscreenchange", () => say(whole, word(document.fullscreenElement === stage ? "ring-screen.whole-leave" : "ring-screen.whole")));

  return {
    /** Another building is on the stage. @param {Form} form */
    fill(form) {
      for (const select of [from, to]) select.replaceChildren(...form.floors.toReversed().map((floor) => make("option", { value: floor.name }, floor.name)));
      const had = recall(kept);
      if (had && !radio(kind, had.lamp)) radio(kind, "usual");
      const there = had?.from !== had?.to && [had?.from, had?.to].every((name) => form.floors.some((floor) => floor.name === name));
      from.value = there ? had.from : form.floors[0].name;
      to.value = there ? had.to : form.floors[form.floors.length - 1].name;
      say(find("#ring-panel-observe"), form.observe);
      say(find("#ring-panel-caution"), form.caution);
    },
    show: lay,
    pause: stop,
  };
}
