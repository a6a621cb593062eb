"use strict";

// Has the parts of the program fetched and compiled beside the page, by fetcher.js, and
// the first of them from before anything else: until its first frame the page has enough
// to do. What all of the page's scripts use is here as well. It stands within the page, so
// that nothing is waited for.
(() => {
  // IDLE is after how many ms a worker without work ends. Through it the browser keeps what
  // it has compiled, and compiled better while it ran.
  const IDLE = 60_000;
  let worker = null;
  let under = null; // what is under way

  const end = () => {
    worker?.terminate();
    worker = null;
  };
  const giveUp = () => {
    if (!under) return;
    end();
    under.done(null);
    under = null;
  };
  const rest = () => {
    if (!under) end();
  };

  // bring begins with a part, and gives up what is under way. Its module is null where
  // it was given up. Where the browser must fetch it, heard tells how many of its
  // bytes have come.
  const bring = (path) => {
    giveUp();
    // Once kept on the phone it comes at once: nothing to count.
    const order = { path, counted: !navigator.serviceWorker?.controller };
    // A new worker has its order by its name: a message would wait until the page, which
    // has much else to do, has heard that the worker runs.
    if (worker) worker.postMessage(order);
    else worker = new Worker("/fetcher.js", { name: JSON.stringify(order) });
    const part = { bytes: 0, heard: () => {} };
    part.module = new Promise((done, failed) => {
      const mine = (under = { done });
      const ended = (how, what) => {
        if (under !== mine) return;
        under = null;
        how(what);
        setTimeout(rest, IDLE);
      };
      worker.onmessage = ({ data: { of, bytes, module, fault } }) => {
        if (of !== path) return;
        if (module) ended(done, module);
        else if (fault) ended(failed, new Error(fault));
        else part.heard((part.bytes = bytes));
      };
      worker.onerror = (e) => {
        worker = null;
        ended(failed, new Error(e.message || "fetcher.js did not come"));
      };
    });
    part.module.catch(() => {}); // it is told to whoever takes the part
    return part;
  };

  // stored is what localStorage keeps under a name; null where the browser keeps nothing of
  // that kind.
  const stored = (name) => {
    try {
      return localStorage.getItem(name);
    } catch {
      return null;
    }
  };

  window.chalkfold = { stored, bring, first: bring("/app.wasm") };
})();
