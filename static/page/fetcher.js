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

// NOWHERE is an address outside of memory, and a block that no function has.
const NOWHERE = 0x7fff0000;

// prepare has the browser compile what the program begins with (see begin.go of
// cmd/buildweb), while the page still does other things: by itself it compiles a function
// when it is first called, in the page. Each is called in an instance of its own, at a
// block that it has not, with Go's stack pointer (g0) and goroutine (g2) outside of
// memory, so that it ends at once.
const prepare = (module) => {
  const [begin] = WebAssembly.Module.customSections(module, "begin");
  if (!begin) return;
  const imports = {};
  for (const { module: of, name } of WebAssembly.Module.imports(module)) {
    (imports[of] ??= {})[name] = () => {
      throw null; // cheaper than an error
    };
  }
  const { exports } = new WebAssembly.Instance(module, imports);
  exports.g0.value = NOWHERE;
  exports.g2.value = BigInt(NOWHERE);
  const table = Object.values(exports).find((it) => it instanceof WebAssembly.Table);
  Error.stackTraceLimit = 0;
  for (const slot of new Uint16Array(begin)) {
    try {
      table.get(slot)(NOWHERE);
    } catch {
      // As it should.
    }
  }
};

const bring = async ({ path: of, counted }) => {
  try {
    const response = await fetch(of);
    if (!response.ok) throw new Error("the server answered " + response.status);
    if (counted) count(of, response.clone()).catch(() => {}); // the fault is told below
    const module = await WebAssembly.compileStreaming(response);
    self.postMessage({ of, module });
    prepare(module);
  } catch (err) {
    self.postMessage({ of, fault: String(err.message || err) });
  }
};

self.onmessage = ({ data }) => bring(data);
bring(JSON.parse(self.name));
