// Use without a network: the worker that keeps the site, what the page says of
// it, and the way to a newer version. Where a browser has no workers, or the
// page is opened from a folder, nothing of this shows.
import { make, say, the } from "./dom.js";
import { word } from "./words.js";

const root = document.documentElement;
/** @type {ServiceWorkerRegistration | null} */
let registration = null;
let newer = false; // a version is ready that this page is not of
let failed = ""; // why the last try to keep the site came to nothing
let notices = false; // whether a newer version is told
let looking = false, again = false;

const often = 60_000; // ms between two looks at what is kept
const longest = 300_000; // ms that a worker may think; browsers end it then
const seldom = 3_600_000; // ms between two questions after a newer version

/**
 * Asks the worker; answers undefined where it says nothing.
 * @param {ServiceWorker} of @param {string} ask @param {string} [arg]
 * @returns {Promise<any>}
 */
function question(of, ask, arg = "") {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    const end = (/** @type {any} */ data) => { port1.close(); clearTimeout(late); resolve(data); };
    const late = setTimeout(end, longest);
    port1.onmessage = ({ data }) => end(data);
    of.postMessage({ ask, arg }, [port2]);
  });
}

/**
 * Begins to keep the site. To be called when the machine runs, so that it
 * takes nothing from the first picture.
 * @param {boolean} told whether a newer version is told; elsewhere `renew` is called
 */
export async function offline(told) {
  notices = told;
  let worker;
  try { worker = navigator.serviceWorker; } catch { return; } // forbidden in a frame of somebody else's
  if (!worker) return;
  const begin = () => worker.register(new URL("../sw.js", import.meta.url), { updateViaCache: "none" });
  try { registration = await begin(); } catch { return; } // no server, or one that has no worker
  worker.addEventListener("message", ({ data }) => {
    if (!data?.failed) return;
    failed = data.failed;
    tell();
  });
  const found = () => {
    const { installing } = /** @type {ServiceWorkerRegistration} */ (registration);
    installing?.addEventListener("statechange", () => {
      if (installing.state === "installed" || installing.state === "redundant") tell();
    });
    tell();
  };
  registration.addEventListener("updatefound", found);
  found();
  worker.ready.then(greet).then(() => tell());
  addEventListener("online", () => { if (root.dataset.offline === "failed") begin().then((r) => { registration = r; found(); }).catch(() => {}); });
  document.addEventListener("visibilitychange", () => { if (!document.hidden) tell(); });
  setInterval(() => { if (!document.hidden) tell(); }, often);
  setInterval(() => registration?.update().catch(() => {}), seldom);
  // What is installed as an application may ask to be kept for good.
  if (matchMedia("(display-mode: standalone)").matches) navigator.storage?.persist?.();
}

/** Tells the worker which version this page is of. */
async function greet() {
  if (registration?.active) await question(registration.active, "hello", root.dataset.version);
}

/** Says how things stand, no more than is so. */
async function tell() {
  if (!registration) return;
  newer ||= Boolean(registration.active && registration.waiting);
  if (newer && notices) notice();
  if (looking) { again = true; return; }
  looking = true;
  do {
    again = false;
    await look(registration);
  } while (again);
  looking = false;
}

/** @param {ServiceWorkerRegistration} registration */
async function look({ active, installing, waiting }) {
  let state = active || installing || waiting ? "busy" : failed && "failed";
  if (active) {
    state = await question(active, "whole") ? "ready" : "busy";
    if (state === "busy") {
      show(state);
      failed = await question(active, "mend") ?? "network";
      state = failed ? "failed" : "ready";
      if (!failed) await greet();
    }
  }
  show(state);
}

/** @param {string} state ready, busy or failed; "" while nothing is known */
function show(state) {
  root.dataset.offline = state;
  const line = the("offline");
  line.hidden = state === "";
  const why = failed === "room" ? word("offline.no-room") : word("offline.no-network");
  say(line, state === "ready" ? word("offline.ready") : state === "busy" ? word("offline.busy") : word("offline.failed", { reason: why }));
}

/** The notice that a newer version is ready; it can be put off. */
function notice() {
  if (document.getElementById("update")) return;
  const box = make("section", { id: "update", class: "update", role: "status" });
  document.body.append(box);
  box.append(
    make("p", {}, word("offline.newer")),
    make("button", { type: "button", class: "primary", onclick: renew }, word("offline.renew")),
    make("button", { type: "button", onclick: () => box.replaceChildren() }, word("offline.later")),
  );
}

/**
 * Takes the version that is ready, and loads the page from it. Where there is
 * none it returns false and does nothing.
 */
export function renew() {
  if (!newer || !registration) return false;
  const { waiting } = registration;
  if (waiting) {
    waiting.addEventListener("statechange", () => { if (waiting.state === "activated") location.reload(); });
    waiting.postMessage({ ask: "takeOver" });
  } else location.reload(); // another page has made it take over
  return true;
}
