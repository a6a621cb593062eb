"use strict";

// A worker beside the page: it gets both parts of the program, compiled, in its
// first message, joins them and runs the program. That sees that there is no
// document, and does tasks. When it ends, however it does, the page is told. So
// it is by the browser of a fault in the middle of an event.
self.addEventListener("message", (parts) => {
  const go = new Go();
  const ended = () => self.postMessage({ id: 0, is: "ended" });
  const run = async ({ first, rest }) => {
    const instance = await WebAssembly.instantiate(first, go.importObject);
    await WebAssembly.instantiate(rest, { first: instance.exports });
    await go.run(instance);
  };
  run(parts.data).then(ended, ended);
}, { once: true });
