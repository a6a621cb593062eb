"use strict";

// Keeps every file of one version, so that the page opens without a network.
//
// - An install that misses a single file, or gets one that is not the file it
//   was built with, fails: the version before stays in charge, whole.
// - What is kept already, here or by the version before, is not fetched again.
// - The words of a language are kept only where it is spoken.
// - The caches of versions before are deleted only when a page of this version
//   has started.

const VERSION = "@VERSION@";
const FILES = @FILES@; // path -> SHA-256 of the content, in hex
const PREFIX = "chalkfold-";
const CACHE = PREFIX + VERSION;
const REPLACES = "/.replaces"; // in CACHE: the caches that this version replaces
const WORDS = "/words/"; // begins the paths of catalogues, such as /words/fr.txt

async function digest(response) {
  const sum = await crypto.subtle.digest("SHA-256", await response.arrayBuffer());
  return Array.from(new Uint8Array(sum), (b) => b.toString(16).padStart(2, "0")).join("");
}

async function otherCaches() {
  return (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);
}

// fromOther returns the file as another version keeps it, if it is the same.
async function fromOther(path, others) {
  for (const name of others) {
    const kept = await (await caches.open(name)).match(path);
    if (kept && (await digest(kept.clone())) === FILES[path]) return kept;
  }
  return null;
}

async function fromNetwork(path) {
  // "reload" is for a browser cache that holds a damaged copy.
  for (const cache of ["no-cache", "reload"]) {
    const got = await fetch(path, { cache, redirect: "error" });
    if (!got.ok) throw new Error(`${path}: the server answered ${got.status}`);
    if ((await digest(got.clone())) === FILES[path]) return got;
  }
  throw new Error(`${path}: not the file of version ${VERSION}`);
}

// isWanted: a catalogue is wanted if the page speaks its language, or the browser
// does, or some version kept it.
async function isWanted(path, speaks, others) {
  if (!path.startsWith(WORDS)) return true;
  const tag = path.slice(WORDS.length, path.indexOf("."));
  if ([speaks, navigator.language].some((spoken) => (spoken || "").toLowerCase().split("-")[0] === tag)) return true;
  for (const name of [CACHE, ...others]) if (await (await caches.open(name)).match(path)) return true;
  return false;
}

async function wanted(speaks, others) {
  const paths = [];
  for (const path of Object.keys(FILES)) if (await isWanted(path, speaks, others)) paths.push(path);
  return paths;
}

// fill keeps what is wanted and not kept yet, one file after the other.
async function fill(speaks) {
  const cache = await caches.open(CACHE);
  const others = await otherCaches();
  for (const path of await wanted(speaks, others)) {
    if (await cache.match(path)) continue;
    await cache.put(path, (await fromOther(path, others)) || (await fromNetwork(path)));
  }
}

async function count(speaks) {
  const cache = await caches.open(CACHE);
  const paths = await wanted(speaks, await otherCaches());
  let have = 0;
  for (const path of paths) if (await cache.match(path)) have++;
  return { have, want: paths.length, version: VERSION };
}

async function install() {
  const cache = await caches.open(CACHE);
  await cache.put(REPLACES, new Response(JSON.stringify(await otherCaches())));
  await fill();
  const { have, want } = await count();
  if (have !== want) throw new Error(`kept ${have} of ${want} files`);
}

// booted: a page of this version has started. Puts back what the browser may
// have dropped, and only then lets go of the versions before.
async function booted(speaks) {
  await fill(speaks);
  const cache = await caches.open(CACHE);
  const noted = await cache.match(REPLACES);
  for (const name of noted ? await noted.json() : []) await caches.delete(name);
  await cache.put(REPLACES, new Response("[]"));
  return count(speaks);
}

async function answer(path, request) {
  const cache = await caches.open(CACHE);
  const kept = await cache.match(path);
  if (kept || !path.startsWith(WORDS)) return kept || fetch(request);
  // The language was chosen just now.
  const got = await fetch(request);
  if (got.ok && (await digest(got.clone())) === FILES[path]) await cache.put(path, got.clone()).catch(() => {}); // there is no room
  return got;
}

// routes say what a browser that knows of such may answer from the cache by itself, without
// waiting until this worker runs (W3C Service Workers, static routing). What a route finds
// no longer kept is fetched, as by answer.
const routes = () =>
  Object.keys(FILES)
    .filter((path) => !path.startsWith(WORDS))
    .map((pathname) => ({
      condition: { urlPattern: { pathname, search: "" }, requestMethod: "GET" },
      source: { cacheName: CACHE },
    }));

self.addEventListener("install", (event) => {
  if (event.addRoutes) event.waitUntil(event.addRoutes(routes()).catch(() => {})); // a form that this browser knows otherwise
  event.waitUntil(install());
});
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== self.location.origin) return;
  const known = Object.hasOwn(FILES, url.pathname);
  if (!known && event.request.mode !== "navigate") return;
  event.respondWith(answer(known ? url.pathname : "/", event.request));
});

self.addEventListener("message", (event) => {
  const line = event.ports[0];
  switch (event.data && event.data.do) {
    case "booted":
      event.waitUntil(
        booted(event.data.speaks).then(
          (sum) => line.postMessage(sum),
          async (err) => line.postMessage({ ...(await count(event.data.speaks)), fault: String(err.message || err) }),
        ),
      );
      break;
    case "take":
      self.skipWaiting();
      break;
  }
});
