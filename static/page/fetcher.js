"use strict";

// A worker beside the page: it fetches parts of the program and hands them over
// compiled. See early.js.

// count reads a copy of what comes, and tells how much of it has come. What is compiled
// is the response itself: the browser keeps the compiled program for one that it fetched,
// and for no other.
const count = async (of, copy) => {
  let bytes = 0;
  for (const reader = copy.body.getReader(); ; ) {
    const { done, value } = await reader.read();
    if (done) return;
    self.postMessage({ of, bytes: (bytes += value.length) });
  }
};

self.onmessage = async ({ data: { path: of, counted } }) => {
  try {
    const response = await fetch(of);
    if (!response.ok) throw new Error("the server answered " + response.status);
    if (counted) count(of, response.clone()).catch(() => {}); // the fault is told below
    self.postMessage({ of, module: await WebAssembly.compileStreaming(response) });
  } catch (err) {
    self.postMessage({ of, fault: String(err.message || err) });
  }
};
