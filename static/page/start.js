"use strict";

// Starts the program and, once it runs, has its files kept for use without a
// network. The program reads window.chalkfold and hears "chalkfold-files"
// whenever what it says has changed.
(() => {
  const state = { have: 0, want: 0, version: "", waiting: false, fault: "" };
  let registration = null;
  let taking = false;
  let booted = false;

  const tell = (change) => {
    Object.assign(state, change);
    window.dispatchEvent(new Event("chalkfold-files"));
  };

  const firstScreen = (text) => {
    const el = document.getElementById("first-say");
    if (el) el.textContent = text;
  };

  // ask sends one message to the service worker and hands over its answer.
  const ask = (worker, message) =>
    new Promise((resolve) => {
      const line = new MessageChannel();
      line.port1.onmessage = (e) => resolve(e.data);
      worker.postMessage(message, [line.port2]);
    });

  const noteWaiting = () => {
    if (registration && registration.waiting && navigator.serviceWorker.controller) tell({ waiting: true });
  };

  // keepFiles may be called again at any time: it does nothing that is done.
  const keepFiles = async () => {
    if (!("serviceWorker" in navigator)) {
      tell({ fault: "this browser cannot keep the program for use without a network" });
      return;
    }
    try {
      registration = await navigator.serviceWorker.register("/sw.js", { scope: "/", updateViaCache: "none" });
      noteWaiting();
      registration.onupdatefound = () => {
        const coming = registration.installing;
        if (!coming) return;
        coming.onstatechange = () => {
          noteWaiting();
          if (coming.state === "redundant" && !navigator.serviceWorker.controller) {
            tell({ fault: "not all files could be fetched; this is tried again when there is a network" });
          }
        };
      };
      const active = (await navigator.serviceWorker.ready).active;
      const count = await ask(active, { do: "booted" });
      tell({ fault: "", ...count });
    } catch (err) {
      tell({ fault: String(err.message || err) });
    }
  };

  const retry = () => {
    if (booted && (state.want === 0 || state.have < state.want)) keepFiles();
  };
  window.addEventListener("online", retry);
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") retry();
  });

  window.chalkfold = {
    files: () => JSON.stringify(state),
    // booted is called by the program once its first screen stands.
    booted: () => {
      booted = true;
      keepFiles();
    },
    // takeUpdate changes to the version that waits.
    takeUpdate: () => {
      if (!registration || !registration.waiting) return;
      taking = true;
      registration.waiting.postMessage({ do: "take" });
    },
  };
  if ("serviceWorker" in navigator) {
    navigator.serviceWorker.addEventListener("controllerchange", () => {
      if (taking) location.reload();
    });
  }

  // The page has one address. A longer one, kept from elsewhere, still opens it.
  if (location.pathname !== "/") history.replaceState(null, "", "/" + location.search + location.hash);

  if (!("WebAssembly" in window) || !("instantiateStreaming" in WebAssembly)) {
    firstScreen("This browser is too old for Chalkfold: update it, or use another one.");
    return;
  }
  const go = new Go();
  WebAssembly.instantiateStreaming(fetch("/app.wasm"), go.importObject).then(
    (made) => go.run(made.instance).then(() => firstScreen("The program has ended. Open the page again.")),
    () => firstScreen("The program could not be fetched. Open the page again when there is a network."),
  );
})();
