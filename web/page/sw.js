// Keeps the site for use without a network. The builder puts two lines in
// front: `version`, and `files`, every file of the site with the beginning of
// its content's SHA-256. They stand for one another, so a worker is one
// version: it is installed when all of them have been fetched and compared,
// and not at all otherwise.
//
// Two versions never mix. Each page is bound to the version it was loaded
// from, and goes on getting that one's files when a newer worker has taken
// over; a file that is in no such version is not taken from another. What was
// loaded straight from the network goes on so.

/** @typedef {{waitUntil(p: Promise<unknown>): void, respondWith(p: Promise<Response>): void, request: Request, clientId: string, resultingClientId: string}} FetchEvent */
/** @type {any} */
const worker = self;
const root = new URL("./", location.href);
const prefix = `wheelroom ${root.pathname} `;
/** The version each open page was loaded from, "" for the network. */
const bonds = `${prefix}pages`;
const lanes = 4; // files that are fetched at a time

/** @param {string} name */
const at = (name) => new URL(name.replace(/(^|\/)index\.html$/, "$1"), root).href;

/** @param {BufferSource} bytes */
async function digest(bytes) {
  const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return [...sum.subarray(0, 16)].map((b) => b.toString(16).padStart(2, "0")).join("");
}

// --- one version in the cache ------------------------------------------------

/** Whether every file of this version is kept, and no other. */
async function whole() {
  if (!await caches.has(prefix + version)) return false;
  const kept = new Set((await (await caches.open(prefix + version)).keys()).map(({ url }) => url));
  const names = Object.keys(files);
  return kept.size === names.length && names.every((name) => kept.has(at(name)));
}

/** Fetches what is not kept yet. Throws where one file cannot be had. */
async function fill() {
  const cache = await caches.open(prefix + version);
  const kept = new Set((await cache.keys()).map(({ url }) => url));
  const names = Object.keys(files).filter((name) => !kept.has(at(name)));
  const lane = async () => {
    for (let name = names.shift(); name !== undefined; name = names.shift()) await cache.put(at(name), await content(name));
  };
  try {
    await Promise.all(Array.from({ length: lanes }, lane));
  } catch (error) {
    names.length = 0;
    throw error;
  }
}

/**
 * A file of this version: from an older one where it was the same, from what
 * the browser has just loaded, or from the network.
 * @param {string} name
 */
async function content(name) {
  const address = at(name);
  const ways = [
    // A page's own headers are the newest server's.
    () => (name.endsWith(".html") ? undefined : caches.match(address)),
    () => fetch(address, { cache: "force-cache" }),
    () => fetch(address, { cache: "reload" }),
  ];
  for (const way of ways) {
    const answer = await way();
    if (!answer?.ok) continue;
    const bytes = await answer.arrayBuffer();
    if (await digest(bytes) !== files[name]) continue;
    const headers = new Headers(answer.headers);
    for (const gone of ["content-encoding", "content-length", "vary"]) headers.delete(gone);
    return new Response(bytes, { headers });
  }
  throw new Error(`${name} is not what version ${version} holds`);
}

/** Lets go of versions that no page is bound to, and of pages that are gone. */
async function sweep() {
  // A newer worker is filling a cache that this one does not know.
  if (worker.registration.installing || worker.registration.waiting) return;
  const names = (await caches.keys()).filter((name) => name.startsWith(prefix));
  const open = new Set((await worker.clients.matchAll({ includeUncontrolled: true, type: "all" })).map((/** @type {{id: string}} */ c) => c.id));
  const used = new Set([bonds, prefix + version]);
  const cache = await caches.open(bonds);
  for (const key of await cache.keys()) {
    const id = new URL(key.url).search.slice(1);
    if (open.has(id)) arriving.delete(id);
    if (open.has(id) || arriving.has(id)) used.add(prefix + await bond(id));
    else {
      bound.delete(id);
      await cache.delete(key);
    }
  }
  await Promise.all(names.filter((name) => !used.has(name)).map((name) => caches.delete(name)));
}

// --- pages and their versions --------------------------------------------------

/** @type {Map<string, string>} */
const bound = new Map();
/** Pages that have been bound and are not seen among the open ones yet.
 * @type {Set<string>} */
const arriving = new Set();
const bondAt = (/** @type {string} */ id) => new URL(`?${id}`, root).href;

/** Binds a page; a worker that is started again must know it still.
 * @param {string} id @param {string} to */
async function bind(id, to) {
  bound.set(id, to);
  arriving.add(id);
  try { await (await caches.open(bonds)).put(bondAt(id), new Response(to)); } catch { /* no room: known until the worker rests */ }
}

/** The version a page is bound to; undefined for one that nobody bound.
 * @param {string} id */
async function bond(id) {
  if (bound.has(id)) return bound.get(id);
  const kept = await caches.match(bondAt(id), { cacheName: bonds });
  if (kept) bound.set(id, await kept.text());
  else {
    // A frame that came before there was a worker says it in its address.
    const page = await worker.clients.get(id);
    const of = page && new URL(page.url).searchParams.get("v");
    if (of) await bind(id, await caches.has(prefix + of) ? of : "");
  }
  return bound.get(id);
}

// --- answers -------------------------------------------------------------------

/** @param {FetchEvent} event @param {URL} url */
async function answer(event, url) {
  const inside = url.pathname.slice(root.pathname.length);
  const name = inside === "" || inside.endsWith("/") ? `${inside}index.html` : inside;
  if (event.request.mode === "navigate") return page(event, name, url.searchParams.get("v"));
  const to = await bond(event.clientId);
  // A worker of the page is of its version too.
  if (event.resultingClientId && to !== undefined) event.waitUntil(bind(event.resultingClientId, to));
  // Children of a page, as a window it wrote itself, are bound to nothing.
  if (to === undefined) return fetch(event.request).catch(async (error) => await kept(name, version) ?? Promise.reject(error));
  return to === "" ? fetch(event.request) : file(event, name, to);
}

/** A page, which is bound from now on.
 * @param {FetchEvent} event @param {string} name @param {string | null} of the version a frame's page is of */
async function page(event, name, of) {
  const frame = event.request.destination !== "document";
  const to = frame && of ? of : await whole() ? version : "";
  const hit = to ? await kept(name, to) : undefined;
  event.waitUntil(bind(event.resultingClientId, hit ? to : ""));
  if (hit) return hit;
  // Rather some of a version than nothing.
  const answer = await fetch(event.request).catch(async (error) => await kept(name, version) ?? Promise.reject(error));
  if (!frame || !of || (await answer.clone().text()).includes(`data-version="${of}"`)) return answer;
  return refusal();
}

/** @param {string} name @param {string} of */
const kept = (name, of) => caches.match(at(name), { cacheName: prefix + of });

/** A file for a page that is bound to a version.
 * @param {FetchEvent} event @param {string} name @param {string} to */
async function file(event, name, to) {
  const hit = await kept(name, to);
  if (hit) return hit;
  const lost = to === version ? Object.hasOwn(files, name) : !await caches.has(prefix + to);
  if (!lost) return fetch(event.request); // no file of the site
  try {
    if (to === version) return await content(name);
  } catch { /* the server has another version */ }
  return refusal();
}

/** Nothing is better than a file of another version. */
const refusal = () => new Response("", { status: 504 });

/** Why files could not be kept. @param {unknown} error */
const reason = (error) => (/** @type {Error} */ (error).name === "QuotaExceededError" ? "room" : "network");

// --- the worker's life ---------------------------------------------------------

worker.addEventListener("install", (/** @type {FetchEvent} */ event) => event.waitUntil(install()));
async function install() {
  try {
    await fill();
    if (!await whole()) throw new Error("not all was kept");
  } catch (error) {
    await caches.delete(prefix + version);
    for (const page of await worker.clients.matchAll({ includeUncontrolled: true, type: "window" })) page.postMessage({ failed: reason(error) });
    throw error;
  }
}

worker.addEventListener("fetch", (/** @type {FetchEvent} */ event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== root.origin || !url.pathname.startsWith(root.pathname)) return;
  event.respondWith(answer(event, url));
});

// What a page may ask; each is answered with a value.
/** @type {Record<string, (arg: string, id: string) => unknown>} */
const asked = {
  /** A page that runs says which version it is of, and is controlled from now
   * on. By then a page that was under way when this worker took over is open. */
  async hello(of, id) {
    await bind(id, await caches.has(prefix + of) ? of : "");
    await worker.clients.claim();
    await sweep();
  },
  whole,
  /** Fetches again what the browser has thrown away; answers why it could not. */
  async mend() {
    try { await fill(); } catch (error) { return reason(error); }
    return await whole() ? "" : "network";
  },
  takeOver: () => worker.skipWaiting(),
};
worker.addEventListener("message", (/** @type {any} */ event) => {
  const deed = asked[event.data?.ask];
  if (deed) event.waitUntil(Promise.resolve(deed(event.data.arg, event.source?.id)).then((value) => event.ports[0]?.postMessage(value)));
});
