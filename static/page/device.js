"use strict";

// What only the browser can tell or do about keeping things on this device. The
// program reads window.chalkfold.device() and hears "chalkfold-device" whenever
// that has changed.
(() => {
  const DATABASE = "chalkfold";
  const CHOSEN = "chalkfold-records"; // in localStorage: the name of another database
  const standalone = matchMedia("(display-mode: standalone)");
  let prompt = null; // the browser's own offer to install, kept for its moment

  const state = {
    kept: "", // "yes" or "no": whether the browser promised not to clear anything; "" is unknown
    used: 0, // bytes of this origin
    room: 0, // bytes that it may use, 0 when unknown
    installed: standalone.matches || navigator.standalone === true,
    installable: false,
    beside: false, // another database is in use: the first could not be opened
    sends: undefined, // whether files can be handed to another program, once looked for
    scans: false, // codes can be read with the camera
  };

  const tell = (change) => {
    Object.assign(state, change);
    window.dispatchEvent(new Event("chalkfold-device"));
  };

  // place is the name of the database in use.
  const place = () => window.chalkfold.stored(CHOSEN) || DATABASE;

  // beside begins a database beside the one that cannot be opened, which stays
  // as it is, and opens the page anew.
  const beside = () => {
    const [, n] = place().split("-");
    try {
      localStorage.setItem(CHOSEN, DATABASE + "-" + ((Number(n) || 1) + 1));
    } catch {
      return false;
    }
    location.reload();
    return true;
  };

  // look asks how much is used, and whether it is kept. ask asks the browser to
  // keep it, which some of them put to the user. It looks whether files can be sent
  // as well: making one costs a slow phone a tenth of a second, for which the first
  // screen need not wait.
  const look = async (ask) => {
    if (state.sends === undefined) tell({ sends: !!sendable("a.json", "{}", JSON_FILE) });
    const storage = navigator.storage;
    if (!storage || !storage.persisted) return;
    try {
      const kept = (await storage.persisted()) || (ask && (await storage.persist()));
      const { usage, quota } = await storage.estimate();
      tell({ kept: kept ? "yes" : "no", used: usage || 0, room: quota || 0 });
    } catch {
      tell({ kept: "" });
    }
  };

  const JSON_FILE = "application/json";
  const fileOf = (name, content, type) => new File([content], name, { type });

  // sendable returns the file in a form that may be handed to another program:
  // some browsers let plain text through and no JSON.
  const sendable = (name, content, type) =>
    [fileOf(name, content, type), type === JSON_FILE && fileOf(name + ".txt", content, "text/plain")].find(
      (file) => file && navigator.canShare && navigator.canShare({ files: [file] }),
    );

  const download = (name, content, type) => {
    const url = URL.createObjectURL(fileOf(name, content, type));
    const link = document.createElement("a");
    link.href = url;
    link.download = name;
    link.click();
    // The browser has taken hold of it long before a minute is over.
    setTimeout(() => URL.revokeObjectURL(url), 60_000);
  };

  // handOver has a file saved or, send, handed to another program. done hears
  // whether it went out: not when the user has thought better of sending it.
  const handOver = async (name, content, send, done, type = JSON_FILE) => {
    const file = send && sendable(name, content, type);
    if (file) {
      try {
        await navigator.share({ files: [file], title: name });
        return done(true);
      } catch (err) {
        if (err.name === "AbortError") return done(false);
      }
    }
    download(name, content, type);
    done(true);
  };

  // sendText hands a text to another program or, where there is none for it,
  // copies it. done hears "sent", "copied" or "" when it went nowhere.
  const sendText = async (text, send, done) => {
    try {
      if (send && navigator.share) {
        await navigator.share({ text });
        return done("sent");
      }
    } catch (err) {
      if (err.name === "AbortError") return done("");
    }
    try {
      await navigator.clipboard.writeText(text);
      done("copied");
    } catch {
      done("");
    }
  };

  let camera = null; // while it looks for a code

  const stopScan = () => {
    if (camera && camera.stream) camera.stream.getTracks().forEach((track) => track.stop());
    camera = null;
  };

  // scan shows the camera in a video and looks for a QR code until it has found
  // one, whose text it tells, or is stopped. It tells "refused" or "fault" where
  // there is no looking.
  const scan = async (id, done) => {
    stopScan();
    const mine = (camera = { stream: null });
    let text = "";
    try {
      mine.stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" } });
      const video = document.getElementById(id);
      video.srcObject = mine.stream;
      await video.play();
      const codes = new BarcodeDetector({ formats: ["qr_code"] });
      while (camera === mine && !text) {
        const [code] = await codes.detect(video);
        if (code) text = code.rawValue;
        await new Promise((again) => setTimeout(again, 150));
      }
    } catch (err) {
      if (camera === mine) text = err.name === "NotAllowedError" ? "refused" : "fault";
    }
    if (camera === mine) stopScan();
    else if (mine.stream) mine.stream.getTracks().forEach((track) => track.stop());
    done(text);
  };

  const LONGEST = 1280; // px of a photo's longer side
  const SMALL = 160; // and of the small one

  // shrink makes a picture small enough to be kept: JPEG, and without what the camera
  // wrote into it, its place among that. done hears both pictures, as bytes, and the
  // size of the larger; nothing where the browser cannot read it.
  const shrink = async (file, done) => {
    const address = URL.createObjectURL(file);
    try {
      const image = new Image();
      image.src = address;
      await image.decode();
      const { naturalWidth, naturalHeight } = image;
      const drawn = async (longest, quality) => {
        const by = Math.min(1, longest / Math.max(naturalWidth, naturalHeight));
        const canvas = document.createElement("canvas");
        canvas.width = Math.max(1, Math.round(naturalWidth * by));
        canvas.height = Math.max(1, Math.round(naturalHeight * by));
        const pen = canvas.getContext("2d");
        pen.fillStyle = "#fff"; // where a picture shows through
        pen.fillRect(0, 0, canvas.width, canvas.height);
        pen.imageSmoothingQuality = "high";
        pen.drawImage(image, 0, 0, canvas.width, canvas.height);
        const jpeg = await new Promise((made) => canvas.toBlob(made, "image/jpeg", quality));
        return { bytes: new Uint8Array(await jpeg.arrayBuffer()), wide: canvas.width, high: canvas.height };
      };
      const { bytes, wide, high } = await drawn(LONGEST, 0.75);
      const small = await drawn(SMALL, 0.6);
      done({ whole: bytes, small: small.bytes, wide, high });
    } catch {
      done(null);
    } finally {
      URL.revokeObjectURL(address);
    }
  };

  // What covers a stage has a step of its own in the browser's history, at the same
  // address: the phone's Back key leads from that to the step under it, which the
  // program hears as "chalkfold-back". Where it goes on, the next step takes its place.
  const UNDER = "under";
  const COVER = "cover";
  const push = history.pushState.bind(history);
  let at = history.state;
  history.pushState = (state, title, url) => {
    if (history.state === COVER) history.replaceState(state, title, url);
    else push(state, title, url);
    at = state;
  };
  const cover = () => {
    if (history.state === COVER) return;
    history.replaceState(UNDER, "", location.href);
    history.pushState(COVER, "", location.href);
  };
  window.addEventListener("popstate", () => {
    const back = at === COVER && history.state === UNDER;
    at = history.state;
    if (back) window.dispatchEvent(new Event("chalkfold-back"));
  });

  const answer = (request) =>
    new Promise((resolve, reject) => {
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });

  // copyOf reads everything of one database, record by record, so that one that
  // cannot be read does not hide the others.
  const copyOf = async (name) => {
    const copy = { name, version: 0, stores: [], fault: "" };
    try {
      const db = await answer(indexedDB.open(name));
      copy.version = db.version;
      for (const store of db.objectStoreNames) {
        const records = [];
        const objects = () => db.transaction(store).objectStore(store);
        for (const key of await answer(objects().getAllKeys())) {
          try {
            records.push({ key, value: await answer(objects().get(key)) });
          } catch (err) {
            records.push({ key, fault: String(err) });
          }
        }
        copy.stores.push({ name: store, records });
      }
      db.close();
    } catch (err) {
      copy.fault = String(err);
    }
    return copy;
  };

  // plainly writes bytes as text where they are text.
  const plainly = (_, value) => {
    if (!(value instanceof Uint8Array)) return value;
    try {
      return new TextDecoder("utf-8", { fatal: true }).decode(value);
    } catch {
      return { base64: btoa(Array.from(value, (byte) => String.fromCharCode(byte)).join("")) };
    }
  };

  // copyAll saves everything that is kept on this device as it stands, readable
  // or not.
  const copyAll = async () => {
    const all = indexedDB.databases ? await indexedDB.databases() : [{ name: DATABASE }, { name: place() }];
    const names = new Set(all.map((db) => db.name).filter((name) => name.startsWith(DATABASE)));
    const databases = [];
    for (const name of names) databases.push(await copyOf(name));
    const day = new Date().toISOString().slice(0, 10);
    download("chalkfold-copy-" + day + ".json", JSON.stringify({ chalkfold_copy: 1, databases }, plainly), JSON_FILE);
  };

  const install = async () => {
    if (!prompt) return;
    const offer = prompt;
    prompt = null;
    tell({ installable: false });
    await offer.prompt();
  };

  window.addEventListener("beforeinstallprompt", (event) => {
    event.preventDefault();
    prompt = event;
    tell({ installable: true });
  });
  window.addEventListener("appinstalled", () => tell({ installed: true, installable: false }));
  standalone.addEventListener("change", () => tell({ installed: standalone.matches }));

  state.beside = place() !== DATABASE;
  state.scans = "BarcodeDetector" in window && !!(navigator.mediaDevices && navigator.mediaDevices.getUserMedia);
  Object.assign(window.chalkfold, { device: () => JSON.stringify(state), place, beside, look, handOver, sendText, scan, stopScan, shrink, copyAll, install, cover });
})();
