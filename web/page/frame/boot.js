// The frame's own scripts: fetch the program, count its bytes, guard the
// canvas's manners, hand the stage to the page.

/**
 * @typedef {object} Page what the page wants to be told
 * @property {string} label what the canvas is called
 * @property {boolean} mayDraw with graphics, where there are any
 * @property {number} bytes uncompressed size of the program
 * @property {(share: number) => void} progress 0 to 1
 * @property {() => void} changed
 * @property {() => void} lost the graphics context is gone
 * @property {(key: string) => void} key a key for the picture
 * @property {(on: boolean) => void} focus
 */

// The program is on its way before anybody asks for it.
const arriving = typeof WebAssembly === "object"
  ? fetch(new URL("../stage.wasm", import.meta.url), { priority: "low" })
  : Promise.reject(new Error("no WebAssembly"));
arriving.catch(() => {}); // said by who waits for it

// Ebitengine prevents every key's default. Keys that belong to the browser
// (Tab, function keys, anything with Ctrl, Meta or Alt) never reach it.
/** @param {KeyboardEvent} event */
const browsers = (event) => event.key === "Tab" || event.ctrlKey || event.metaKey || event.altKey || /^F\d+$/.test(event.key);

/** @param {Page} page */
function guard(page) {
  for (const kind of ["keydown", "keyup"]) {
    addEventListener(kind, (event) => {
      const key = /** @type {KeyboardEvent} */ (event);
      key.stopImmediatePropagation();
      if (browsers(key)) return;
      if ([" ", "ArrowUp", "ArrowDown", "ArrowLeft", "ArrowRight", "Enter", "Escape"].includes(key.key)) key.preventDefault();
      const arrow = key.key.startsWith("Arrow");
      if (kind === "keydown" && !(key.repeat && !arrow)) page.key(arrow && key.shiftKey ? `Shift+${key.key}` : key.key);
    }, true);
  }
  // The page listens to the pointer itself. What Ebitengine never hears of it
  // does not prevent, so a finger and the wheel can still move the page.
  for (const kind of ["touchstart", "touchmove", "touchend", "touchcancel"]) {
    addEventListener(kind, (event) => event.stopImmediatePropagation(), true);
  }
  addEventListener("webglcontextlost", () => page.lost(), true);
  // A picture that has the focus by key shows it; one that was clicked need not.
  addEventListener("focusin", (event) => page.focus(/** @type {Element} */ (event.target).matches(":focus-visible")));
  addEventListener("focusout", () => page.focus(false));
  addEventListener("blur", () => page.focus(false));
}

/**
 * The program, compiled while it arrives.
 * @param {WebAssembly.Imports} imports
 * @param {Page} page
 */
async function instance(imports, page) {
  const response = await arriving;
  if (!response.ok || !response.body) throw new Error(`HTTP ${response.status}`);
  let seen = 0;
  const counted = response.body.pipeThrough(new TransformStream({
    transform(chunk, controller) {
      seen += chunk.byteLength;
      page.progress(page.bytes > 0 ? Math.min(1, seen / page.bytes) : 0);
      controller.enqueue(chunk);
    },
  }));
  // Named by hand, so that a server with the wrong type cannot break streaming.
  const typed = new Response(counted, { headers: { "Content-Type": "application/wasm" } });
  if (typeof WebAssembly.instantiateStreaming === "function") {
    return (await WebAssembly.instantiateStreaming(typed, imports)).instance;
  }
  return (await WebAssembly.instantiate(await typed.arrayBuffer(), imports)).instance;
}

/**
 * The page's language for the program, which holds English itself. Undefined
 * where there is none to be had: the program then speaks English.
 */
async function words() {
  const address = document.documentElement.dataset.words;
  if (!address) return undefined;
  try {
    const response = await fetch(address);
    return response.ok ? await response.text() : undefined;
  } catch { return undefined; }
}

/**
 * Ebitengine asks for a canvas that is smoothed and can be seen through. The
 * picture has soft edges of its own and covers all of it, and without a graphics
 * card either costs a fifth of the frames.
 */
function plainCanvas() {
  const context = /** @type {(kind: string, attributes?: object) => any} */ (HTMLCanvasElement.prototype.getContext);
  /** @type {any} */ (HTMLCanvasElement.prototype).getContext = function (/** @type {string} */ kind, /** @type {object} */ attributes) {
    return context.call(this, kind, kind === "webgl2" ? { ...attributes, alpha: false, antialias: false, depth: false } : attributes);
  };
}

function hasWebGL2() {
  try {
    const context = document.createElement("canvas").getContext("webgl2");
    context?.getExtension("WEBGL_lose_context")?.loseContext();
    return context !== null;
  } catch { return false; }
}

/**
 * Starts the program. The page calls this once for each load of the frame; it
 * gets no stage when the program ended at once.
 * @param {Page} page
 */
async function boot(page) {
  const draws = page.mayDraw && hasWebGL2();
  guard(page);
  plainCanvas();
  const scope = /** @type {any} */ (globalThis);
  const go = new scope.Go();
  scope.stageChanged = page.changed;
  scope.stageDraws = draws;
  const [program, spoken] = await Promise.all([instance(go.importObject, page), words()]);
  scope.stageWords = spoken;
  page.progress(1);
  go.run(program);
  const canvas = document.querySelector("canvas");
  if (canvas) {
    canvas.tabIndex = 0;
    canvas.setAttribute("role", "application");
    canvas.setAttribute("aria-label", page.label);
  }
  return { stage: scope.stage, draws };
}

Object.assign(globalThis, { boot });
