// A worker, a classic one as the compiler's loader wants it. It is sent a task,
// runs the errand program on it, and sends back what that writes, line by line.
// Whoever has enough of it ends the worker.

importScripts("../frame/wasm_exec.js");

const scope = /** @type {any} */ (globalThis);
const send = (/** @type {import("./errand.js").Told} */ told) => postMessage(told);

/** Gives the program the text to read, and takes its lines. @param {string} text */
function pipe(text) {
  const from = new TextEncoder().encode(text);
  const decoder = new TextDecoder();
  let read = 0;
  let line = "";
  /** @type {(fd: number, buffer: Uint8Array, offset: number, length: number, position: null, callback: (error: null, n: number) => void) => void} */
  scope.fs.read = (_fd, buffer, offset, length, _position, callback) => {
    const part = from.subarray(read, read + length);
    buffer.set(part, offset);
    read += part.length;
    callback(null, part.length);
  };
  const log = scope.fs.writeSync;
  /** @type {(fd: number, buffer: Uint8Array) => number} */
  scope.fs.writeSync = (fd, buffer) => {
    if (fd !== 1) return log.call(scope.fs, fd, buffer);
    const lines = (line + decoder.decode(buffer, { stream: true })).split("\n");
    line = lines.pop() ?? "";
    for (const whole of lines) send(JSON.parse(whole));
    return buffer.length;
  };
}

addEventListener("message", async ({ data }) => {
  try {
    pipe(JSON.stringify(data));
    const response = await fetch("../errand.wasm");
    if (!response.ok) throw new Error(`HTTP ${response.status}`);
    const go = new scope.Go();
    const { instance } = await WebAssembly.instantiate(await response.arrayBuffer(), go.importObject);
    await go.run(instance);
    send({ error: "the errand program ended without an answer" });
  } catch (error) {
    send({ error: String(error) });
  }
});
