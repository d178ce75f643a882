// Starts the empty program.
const go = new globalThis.Go();
const { instance } = await WebAssembly.instantiateStreaming(fetch("empty.wasm"), go.importObject);
go.run(instance);
document.body.dataset.ready = "1";
