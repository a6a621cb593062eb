"use strict";

// A worker for the engine: it gets the compiled program in its first message
// and runs it. The program sees that there is no document, and answers.
importScripts("/wasm_exec.js");
self.addEventListener("message", (first) => {
  const go = new Go();
  WebAssembly.instantiate(first.data, go.importObject).then((instance) => go.run(instance));
}, { once: true });
