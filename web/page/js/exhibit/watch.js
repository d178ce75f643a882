// Watches over the exhibit: whether the program answers and the machine moves
// when it should. What stands still is loaded again. Time here is real, at
// every pace.

const kept = "exhibit-recovered";
const patience = { running: 6000, opening: 30_000, loading: 90_000 }; // milliseconds
const leastFrames = 10; // a computer that is only slow has drawn none in which to move
const healthyAfter = 60_000;
const graphicsAfter = 3_600_000; // until they are tried again
const mostRecoveries = 3;

/** How often the page was loaded again since it last ran well for a minute. */
function recovered() {
  try { return Number(sessionStorage.getItem(kept)) || 0; } catch { return 0; }
}

/** @param {number} times */
function note(times) {
  try { sessionStorage.setItem(kept, String(times)); } catch { /* counted from nought again */ }
}

/** Whether graphics have failed so often that the picture is better drawn without. */
export const withoutGraphics = () => recovered() >= mostRecoveries;

/**
 * @param {import("../stage.js").Stage} stage
 * @param {() => boolean} moves whether the machine ought to be moving
 * @param {(on: boolean) => void} waiting shows that something is being put right
 */
export function watch(stage, moves, waiting) {
  let seen = "";
  let since = performance.now();
  let frames = 0; // drawn since then
  const wellSince = performance.now();
  let opened = false;
  let leaving = false;

  /** A sign of life: another one each time the program has done something. */
  function sign() {
    if (!stage.inner) return "";
    try {
      const { time_s: time, running } = stage.ask("clock");
      return moves() ? `moves ${time} ${running}` : `stands ${performance.now()}`;
    } catch { return ""; }
  }

  function alive() {
    since = performance.now();
    frames = 0;
  }

  function look() {
    if (leaving) return;
    const time = performance.now();
    if (document.hidden) { alive(); return; } // no frames are drawn, so nothing moves
    const now = sign();
    if (now) opened = true;
    waiting(!stage.inner);
    if (now && now !== seen) {
      seen = now;
      alive();
      if (recovered() && time - wellSince > (withoutGraphics() ? graphicsAfter : healthyAfter)) note(0);
      return;
    }
    const most = stage.inner ? patience.running : opened ? patience.opening : patience.loading;
    if (time - since > most && (frames >= leastFrames || time - since > patience.opening)) recover(stage.inner ? "the machine stands still" : "the program is not there");
  }

  /** Loads the page again, once it can be had: a browser's own page of errors
   * would be the end of the exhibit. */
  async function recover(why = "the frame failed") {
    if (leaving) return;
    leaving = true;
    console.warn(`exhibit: loaded again, because ${why}`);
    waiting(true);
    note(recovered() + 1);
    for (;;) {
      try {
        if ((await fetch(location.pathname, { signal: AbortSignal.timeout(2000) })).ok) break;
      } catch { /* not to be had now */ }
      await new Promise((resolve) => setTimeout(resolve, 3000));
    }
    location.reload();
  }

  stage.addEventListener("progress", alive);
  stage.addEventListener("failed", () => recover());
  document.addEventListener("visibilitychange", alive);
  const count = () => { frames += 1; requestAnimationFrame(count); };
  count();
  setInterval(look, 1000);
  return { recover };
}

/** Tells a kiosk's own server that the page is alive. What it answers does not matter. */
export function heartbeat() {
  if (new URLSearchParams(location.search).get("kiosk") !== "1") return;
  const beat = () => { fetch(new URL("../../alive", import.meta.url), { method: "POST" }).catch(() => {}); };
  beat();
  setInterval(beat, 2000);
}
