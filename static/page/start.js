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
      tell({ fault: "cannot" });
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
            tell({ fault: "partly" });
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
    // speaks is told which language the program speaks.
    speaks: (language) => {
      document.documentElement.lang = language;
      try {
        localStorage.setItem(CHOSEN, language);
      } catch {
        // The browser keeps nothing of that kind: the first words go by its own language.
      }
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

  // The few words that stand here before the program speaks, and after it has
  // stopped. % is the figure in a text.
  const CHOSEN = "chalkfold-language"; // in localStorage: what the program spoke last
  const FRENCH = {
    "From a client's measurements and the cloth on the table to a garment that fits.": "Des mesures d'une cliente et du tissu sur la table à un vêtement qui va bien.",
    "Laying out the tools…": "On prépare les outils…",
    "Fetched so far": "Déjà reçu",
    "Try again": "Réessayer",
    "The first time takes % megabytes. After that it opens without a network.": "La première fois prend % mégaoctets. Ensuite, tout s'ouvre sans réseau.",
    "The network is slow. It goes on by itself; or try again.": "Le réseau est lent. Cela continue tout seul ; ou réessayez.",
    "The program could not be fetched. Try again when there is a network.": "Le programme n'a pas pu être reçu. Réessayez quand il y a du réseau.",
    "This browser is too old for Chalkfold: update it, or use another one.": "Ce navigateur est trop ancien pour Chalkfold : mettez-le à jour, ou prenez-en un autre.",
    "The program stopped": "Le programme s'est arrêté",
    "Everything that was saved is safe. Open the page again to go on.": "Tout ce qui était enregistré est en sûreté. Rouvrez la page pour continuer.",
    "Open again": "Rouvrir",
    "If it stops again and again:": "S'il s'arrête encore et encore :",
    "Save all that is kept to a file": "Enregistrer dans un fichier tout ce qui est gardé",
    "Copy what went wrong": "Copier ce qui n'a pas marché",
    Copied: "Copié",
  };
  const chosen = () => {
    try {
      return localStorage.getItem(CHOSEN);
    } catch {
      return null; // the browser keeps nothing of that kind
    }
  };
  const french = (chosen() || navigator.language || "").startsWith("fr");
  const say = (text) => {
    const [figure] = text.match(/\d+(\.\d+)?/) || [""];
    const said = french && FRENCH[text.replace(figure, figure && "%")];
    return said ? said.replace("%", figure.replace(".", ",")) : text;
  };
  const sayWithin = (node) => {
    for (const el of node.querySelectorAll("*")) {
      if (el.ariaLabel) el.ariaLabel = say(el.ariaLabel);
      if (!el.children.length) el.textContent = say(el.textContent);
    }
  };
  if (french) {
    document.documentElement.lang = "fr";
    sayWithin(document.getElementById("first"));
    sayWithin(document.getElementById("stopped").content);
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

  // named puts the names of functions in the place of their numbers.
  const named = async (trace) => {
    const names = (await (await fetch("/names.txt")).text()).split("\n");
    return trace.replace(/\bf\.(\d+)/g, (mark, n) => names[n] || mark);
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
    const told = [why, tail, navigator.userAgent, state.version].filter(Boolean).join("\n");
    fault.textContent = told;
    named(told).then((text) => (fault.textContent = text), () => {}); // the numbers stay
    document.getElementById("stopped-open").onclick = () => location.reload();
    document.getElementById("stopped-save").onclick = () => window.chalkfold.copyAll();
    document.getElementById("stopped-copy").onclick = async (e) => {
      getSelection().selectAllChildren(fault); // to be copied by hand where the browser does not let us
      await navigator.clipboard.writeText(fault.textContent);
      e.target.textContent = say("Copied");
    };
    document.getElementById("stopped-open").focus();
  };

  const first = (text, again) => {
    const line = document.getElementById("first-say");
    if (!line) return;
    line.textContent = say(text);
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
