// The machine's noises, off until the reader switches them on, which is also
// the gesture a browser wants. Each noise has its twin in words below the
// picture, and its part moves in the picture: nothing is only heard.
import { make, say, the } from "./dom.js";
import { word } from "./words.js";

/** @typedef {import("./stage.js").Stage} Stage */
/** @typedef {{name: string, part: string, pan: number}} Noise */
/** @typedef {{context: AudioContext, noises: Record<string, AudioBuffer>, door: GainNode}} Player */

const parts = ["relay", "contactor", "roller", "brake", "door"];

// A twin shows for this long, and then not for that long: no more than two
// changes to and fro in a second, whatever the speed.
const shown = 350;
const hidden = 200;

// Two noises of one kind closer together than this are one, in milliseconds.
const apart = 60;

/**
 * @param {Stage} stage
 * @param {(text: string) => void} notice
 */
export function sound(stage, notice) {
  const button = /** @type {HTMLButtonElement} */ (the("sound"));
  const list = the("noises");
  /** @type {Record<string, {item: HTMLElement, until: number}>} */
  const twins = {};
  for (const part of parts) {
    const item = make("li");
    say(item, word(`page.sound-${part}`));
    item.dataset.part = part;
    twins[part] = { item, until: -Infinity };
    list.firstElementChild?.append(item);
  }
  /** @type {Player | null} */
  let player = null;
  /** @type {Record<string, number>} */
  const last = {};
  let on = false;

  /** @param {string} part @param {number} now */
  function light(part, now) {
    const twin = twins[part];
    if (now >= twin.until && now < twin.until + hidden) return;
    twin.until = now + shown;
    twin.item.dataset.on = "1";
  }

  /** @param {number} now */
  function beat(now) {
    if (!on) return;
    requestAnimationFrame(beat);
    for (const twin of Object.values(twins)) if (now >= twin.until) delete twin.item.dataset.on;
    if (!stage.inner || !player) return;
    /** @type {{made: Noise[], slides: boolean}} */
    const { made, slides } = stage.ask("hear");
    for (const noise of made) {
      if (now < (last[noise.name] ?? -Infinity) + apart) continue;
      last[noise.name] = now;
      play(player, noise);
      light(noise.part, now);
    }
    if (slides) light("door", now);
    player.door.gain.setTargetAtTime(slides ? 1 : 0, player.context.currentTime, 0.05);
  }

  async function begin() {
    try {
      player ??= await prepare(stage.ask("noises"));
      await player.context.resume();
    } catch {
      player = null;
      notice(word("page.sound-none"));
      return false;
    }
    return true;
  }

  button.addEventListener("click", async () => {
    const wanted = !on;
    if (wanted && !await begin()) return;
    on = wanted;
    button.setAttribute("aria-pressed", String(on));
    list.hidden = !on;
    stage.set("listen", on);
    if (on) requestAnimationFrame(beat);
    else await player?.context.suspend();
  });
  // A hidden page is silent; the machine waits as well.
  document.addEventListener("visibilitychange", () => {
    if (!on) return;
    if (document.hidden) player?.context.suspend();
    else player?.context.resume();
  });

  return { /** Makes the switch usable. */ enable() { button.disabled = false; } };
}

/**
 * @param {Record<string, string>} files WAV in base64, by name
 * @returns {Promise<Player>}
 */
async function prepare(files) {
  const context = new AudioContext();
  /** @type {Record<string, AudioBuffer>} */
  const noises = {};
  for (const [name, text] of Object.entries(files)) {
    const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
    noises[name] = await context.decodeAudioData(bytes.buffer);
  }
  const door = new GainNode(context, { gain: 0 });
  const slide = new AudioBufferSourceNode(context, { buffer: noises["door-slides"], loop: true });
  slide.connect(door).connect(new StereoPannerNode(context, { pan: -0.5 })).connect(context.destination);
  slide.start();
  return { context, noises, door };
}

/** @param {Player} player @param {Noise} noise */
function play({ context, noises }, noise) {
  const source = new AudioBufferSourceNode(context, { buffer: noises[noise.name] });
  source.connect(new StereoPannerNode(context, { pan: noise.pan })).connect(context.destination);
  source.start();
}
