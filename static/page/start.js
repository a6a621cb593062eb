"use strict";

// Fetches and starts the program and, once it runs, has its files kept for use
// without a network. The program reads window.chalkfold.files() and hears
// "chalkfold-files" whenever that has changed.
(() => {
  const PROGRAM = @PROGRAM@; // bytes of the program as they are counted here, not as they are sent
  const PATIENCE = 15_000; // ms in which something should have come
  const state = { have: 0, want: 0, version: "", waiting: false, fault: "" };
  let registration = null;
  let taking = false;
  let booted = false;

  const tell = (change) => {
    Object.assign(state, change);
    window.dispatchEvent(new Event("chalkfold-files"));
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

  Object.assign(window.chalkfold, {
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
  });
  if ("serviceWorker" in navigator) {
    navigator.serviceWorker.addEventListener("controllerchange", () => {
      if (taking) location.reload();
    });
  }

  // The page has one address. A longer one, kept from elsewhere, still opens it.
  if (location.pathname !== "/") history.replaceState(null, "", "/" + location.search + location.hash);

  // What the program wrote last: what went wrong, if it stops.
  let tail = "";
  const write = fs.writeSync;
  const letters = new TextDecoder();
  fs.writeSync = function (fd, bytes) {
    tail = (tail + letters.decode(bytes)).slice(-4000);
    return write.call(this, fd, bytes);
  };

  // stopped covers the page when the program has ended, however it did. What
  // lies under it answers no more.
  let over = false;
  const stopped = (why) => {
    if (over) return;
    over = true;
    for (const el of document.body.children) el.inert = true;
    document.body.append(document.getElementById("stopped").content.cloneNode(true));
    const fault = document.getElementById("stopped-fault");
    fault.textContent = [why, tail, navigator.userAgent, state.version].filter(Boolean).join("\n");
    document.getElementById("stopped-open").onclick = () => location.reload();
    document.getElementById("stopped-save").onclick = () => window.chalkfold.copyAll();
    document.getElementById("stopped-copy").onclick = async (e) => {
      getSelection().selectAllChildren(fault); // to be copied by hand where the browser does not let us
      await navigator.clipboard.writeText(fault.textContent);
      e.target.textContent = "Copied";
    };
    document.getElementById("stopped-open").focus();
  };

  const first = (text, again) => {
    const say = document.getElementById("first-say");
    if (!say) return;
    say.textContent = text;
    document.getElementById("first-again").hidden = !again;
  };
  const part = (percent) => {
    const bar = document.getElementById("first-bar");
    if (!bar) return;
    bar.hidden = percent === 0;
    bar.value = percent;
    document.getElementById("first-part").textContent = percent ? percent + " %" : "";
  };

  // count reads a copy of what comes, and tells how much of it has come. What
  // is compiled is the response itself: the browser keeps the compiled program
  // for one that it fetched, and for no other.
  const count = async (copy, heardOf) => {
    let bytes = 0;
    for (const reader = copy.body.getReader(); ; ) {
      const { done, value } = await reader.read();
      if (done) return;
      bytes += value.length;
      part(Math.min(100, Math.floor((100 * bytes) / PROGRAM)));
      heardOf();
    }
  };

  let fetching = null;
  const load = async () => {
    if (fetching) fetching.abort();
    const mine = (fetching = new AbortController());
    let timer = 0;
    const heardOf = () => {
      clearTimeout(timer);
      first("Laying out the tools…", false);
      timer = setTimeout(() => first("The network is slow. It goes on by itself; or try again.", true), PATIENCE);
    };
    part(0);
    heardOf();
    const go = new Go();
    // A trap ends the program in the middle of an event, and tells nobody else.
    const resume = go._resume;
    go._resume = function () {
      try {
        return resume.call(this);
      } catch (err) {
        stopped(String(err.stack || err));
        throw err;
      }
    };
    let made;
    try {
      const response = await fetch("/app.wasm", { signal: mine.signal });
      if (!response.ok) throw new Error("the server answered " + response.status);
      // Once kept on the phone it comes at once: nothing to count.
      if (!navigator.serviceWorker || !navigator.serviceWorker.controller) {
        count(response.clone(), heardOf).catch(() => {}); // the fault is told below
      }
      made = await WebAssembly.instantiateStreaming(response, go.importObject);
    } catch (err) {
      if (mine.signal.aborted) return; // another try is under way
      console.warn(err);
      part(0);
      first("The program could not be fetched. Try again when there is a network.", true);
      return;
    } finally {
      clearTimeout(timer);
    }
    window.chalkfold.program = made.module; // for the workers beside the page
    go.run(made.instance).then(
      () => stopped(""),
      (err) => stopped(String(err.stack || err)),
    );
  };

  if (!("WebAssembly" in window) || !("instantiateStreaming" in WebAssembly)) {
    first("This browser is too old for Chalkfold: update it, or use another one.", false);
    return;
  }
  document.getElementById("first-again").onclick = load;
  load();
})();
