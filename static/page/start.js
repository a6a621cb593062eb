"use strict";

// Fetches and starts the program and, once it runs, has its files kept for use
// without a network. The program reads window.chalkfold.files() and hears
// "chalkfold-files" whenever that has changed.
//
// The program comes in two parts. The first runs alone until its first screen
// stands; then the rest is fetched and joined to it. Where the program wants
// something of the rest before that, only what wants it waits.
(() => {
  const PROGRAM = @PROGRAM@; // bytes of the first part as they are counted here, not as they are sent
  const REST = @REST@; // and of the rest
  const NAMES = "@NAMES@"; // SHA-256 of the names of functions, in hex
  const PATIENCE = 15_000; // ms in which something should have come
  const PAUSE = 400; // ms for which nobody wonders at a page that stands still
  const state = { whole: false, have: 0, want: 0, version: "", waiting: false, fault: "" };
  let registration = null;
  let spoken = ""; // the language that the worker was told of last
  const { stored, bring, last } = window.chalkfold; // see early.js and look.js
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
      spoken = document.documentElement.lang;
      const count = await ask(active, { do: "booted", speaks: spoken });
      tell({ fault: "", ...count });
    } catch (err) {
      tell({ fault: String(err.message || err) });
    }
  };

  // offerToInstall names the manifest once there is time: the browser fetches it, and
  // draws the icon that it names, before it goes on with the page.
  const offerToInstall = () => {
    const link = document.createElement("link");
    link.rel = "manifest";
    link.href = "/manifest.webmanifest";
    document.head.append(link);
  };

  const retry = () => {
    if (booted) fetchRest();
    if (booted && (state.want === 0 || state.have < state.want)) keepFiles();
  };
  window.addEventListener("online", retry);
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") retry();
    else last.keep();
  });

  Object.assign(window.chalkfold, {
    files: () => JSON.stringify(state),
    // booted is called by the program once its first screen stands.
    booted: () => {
      booted = true;
      setTimeout(last.end);
      offerToInstall();
      fetchRest().then(keepFiles);
    },
    // rests is told when the Book begins to show what it will show when the page is
    // opened again, and when that ends.
    rests: last.rests,
    // wanted tells which function of the rest was the first to be waited for: its
    // slot in the table; nought where there was none.
    wanted: () => wanted,
    // lend hands both parts of the program, compiled, to a worker.
    lend: (worker) => whole.then((parts) => worker.postMessage(parts)),
    // speaks is told which language the program speaks. Its words may have come past
    // the worker.
    speaks: (language) => {
      document.documentElement.lang = language;
      if (registration && language !== spoken) keepFiles();
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
    "Fetching the rest…": "On va chercher le reste…",
    "There is a newer version by now. Open the page again to go on.": "Il y a entre-temps une nouvelle version. Rouvrez la page pour continuer.",
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
  const french = (stored(CHOSEN) || navigator.language || "").startsWith("fr");
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
    sayWithin(last.splash);
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

  // named puts the names of functions in the place of their numbers, if the server
  // has those of this build.
  const named = async (trace) => {
    const bytes = await (await fetch("/names.txt")).arrayBuffer();
    const sum = await crypto.subtle.digest("SHA-256", bytes);
    const hex = Array.from(new Uint8Array(sum), (b) => b.toString(16).padStart(2, "0")).join("");
    if (hex !== NAMES) return trace;
    const names = letters.decode(bytes).split("\n");
    return trace.replace(/\bf\.(\d+)/g, (mark, n) => names[n] || mark);
  };

  // stopped covers the page when the program has ended, however it did. What
  // lies under it answers no more.
  let over = false;
  const stopped = (why) => {
    if (over) return;
    over = true;
    last.rests(false);
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

  // What is told of the part that is fetched, on the first screen, or on what
  // covers the page while the program waits.
  const told = { text: "Laying out the tools…", again: "", percent: 0 };
  const note = (change) => {
    Object.assign(told, change);
    if (told.again) last.hide();
    const line = document.getElementById("first-say");
    if (!line) return;
    line.textContent = say(told.text);
    const key = document.getElementById("first-again");
    key.hidden = !told.again;
    key.textContent = say(told.again);
    const bar = document.getElementById("first-bar");
    bar.hidden = told.percent === 0;
    bar.value = told.percent;
    document.getElementById("first-part").textContent = told.percent ? told.percent + " %" : "";
  };

  // take waits for a part of the program that is being brought, tells of it with a
  // text, and makes it. Null is that it did not come, or that it was given up for
  // another try.
  let fetching = null;
  const take = async (part, size, imports, text) => {
    const mine = (fetching = part);
    let timer = 0;
    part.heard = (bytes) => {
      if (fetching !== mine) return;
      clearTimeout(timer);
      note({ text, again: "", percent: Math.min(100, Math.floor((100 * bytes) / size)) });
      timer = setTimeout(() => note({ text: "The network is slow. It goes on by itself; or try again.", again: "Try again" }), PATIENCE);
    };
    part.heard(part.bytes);
    try {
      const module = await part.module;
      return module && { module, instance: await WebAssembly.instantiate(module, imports) };
    } catch (err) {
      console.warn(err);
      if (err instanceof WebAssembly.LinkError) {
        note({ text: "There is a newer version by now. Open the page again to go on.", again: "Open again", percent: 0 });
      } else {
        note({ text: "The program could not be fetched. Try again when there is a network.", again: "Try again", percent: 0 });
      }
      return null;
    } finally {
      clearTimeout(timer);
      if (fetching === mine) fetching = null;
    }
  };
  const tryAgain = () => {
    if (told.again === "Open again") location.reload();
    else if (first) fetchRest(true);
    else load(bring("/app.wasm"));
  };

  const go = new Go();
  // By itself Go looks for garbage whenever 4 MB are full, which a dozen keys do, and a
  // slow phone takes 50 ms for it: now at 16 MB. What much uses is kept from growing as
  // wide.
  go.env.GOGC = "400";
  go.env.GOMEMLIMIT = "128MiB";
  let first = null; // the first part, once it is there
  let joined = false; // the rest is there as well
  let join;
  const whole = new Promise((resolve) => (join = resolve));

  const load = async (part) => {
    const made = await take(part, PROGRAM, go.importObject, "Laying out the tools…");
    if (!made) return;
    first = made;
    go.run(made.instance).then(
      () => stopped(""),
      (err) => stopped(String(err.stack || err)),
    );
    lookForWants();
  };

  // fetchRest does nothing where the rest is there or under way, unless it is to
  // begin anew.
  const fetchRest = async (anew) => {
    if (joined || over || (fetching && !anew)) return;
    const made = await take(bring("/rest.wasm"), REST, { first: first.instance.exports }, "Fetching the rest…");
    if (!made) return;
    joined = true;
    join({ first: first.module, rest: made.module });
    document.querySelector(".wanted")?.remove();
    if (!over) go._resume(); // what waits goes on
    tell({ whole: true });
  };

  // lookForWants sees to it when the program waits for the rest.
  let wanted = 0;
  const lookForWants = () => {
    const { rest } = first.instance.exports;
    if (wanted || joined || !rest || rest.value < 2) return;
    wanted = rest.value;
    fetchRest();
    setTimeout(() => {
      if (joined || over || document.getElementById("first-say")) return;
      document.body.append(document.getElementById("wanted").content.cloneNode(true));
      document.getElementById("first-again").onclick = tryAgain;
      note({});
    }, PAUSE);
  };

  // A trap ends the program in the middle of an event, and tells nobody else.
  const resume = go._resume;
  go._resume = function () {
    try {
      resume.call(this);
    } catch (err) {
      stopped(String(err.stack || err));
      throw err;
    }
    lookForWants();
  };

  if (!("WebAssembly" in window) || !("compileStreaming" in WebAssembly)) {
    last.hide();
    note({ text: "This browser is too old for Chalkfold: update it, or use another one." });
    return;
  }
  last.splash.querySelector("#first-again").onclick = tryAgain;
  load(window.chalkfold.first);
})();
