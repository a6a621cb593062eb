"use strict";

// Keeps every file of one version, so that the page opens without a network.
//
// - An install that misses a single file, or gets one that is not the file it
//   was built with, fails: the version before stays in charge, whole.
// - What is kept already, here or by the version before, is not fetched again.
// - The caches of versions before are deleted only when a page of this version
//   has started.

const VERSION = "@VERSION@";
const FILES = @FILES@; // path -> SHA-256 of the content, in hex
const PREFIX = "chalkfold-";
const CACHE = PREFIX + VERSION;
const REPLACES = "/.replaces"; // in CACHE: the caches that this version replaces

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

// fill keeps what is not kept yet, one file after the other.
async function fill() {
  const cache = await caches.open(CACHE);
  const others = await otherCaches();
  for (const path of Object.keys(FILES)) {
    if (await cache.match(path)) continue;
    await cache.put(path, (await fromOther(path, others)) || (await fromNetwork(path)));
  }
}

async function count() {
  const cache = await caches.open(CACHE);
  let have = 0;
  for (const path of Object.keys(FILES)) if (await cache.match(path)) have++;
  return { have, want: Object.keys(FILES).length, version: VERSION };
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
async function booted() {
  await fill();
  const cache = await caches.open(CACHE);
  const noted = await cache.match(REPLACES);
  for (const name of noted ? await noted.json() : []) await caches.delete(name);
  await cache.put(REPLACES, new Response("[]"));
  return count();
}

async function answer(path, request) {
  const kept = await (await caches.open(CACHE)).match(path);
  return kept || fetch(request);
}

self.addEventListener("install", (event) => event.waitUntil(install()));
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
        booted().then(
          (sum) => line.postMessage(sum),
          async (err) => line.postMessage({ ...(await count()), fault: String(err.message || err) }),
        ),
      );
      break;
    case "take":
      self.skipWaiting();
      break;
  }
});
