"use strict";

// A worker beside the page: it gets the compiled program in its first message
// and runs it. The program sees that there is no document, and does tasks. When
// it ends, however it does, the page is told. So it is by the browser of a
// fault in the middle of an event.
importScripts("/wasm_exec.js");
self.addEventListener("message", (first) => {
  const go = new Go();
  const ended = () => self.postMessage({ id: 0, is: "ended" });
  WebAssembly.instantiate(first.data, go.importObject).then((instance) => go.run(instance)).then(ended, ended);
}, { once: true });
