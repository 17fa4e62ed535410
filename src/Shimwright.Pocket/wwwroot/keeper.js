// Keeps one whole version of the program in the browser, so that it starts without a net. Another one is taken only when all of it is there.
"use strict";
importScripts("./files.js");

const cacheName = "shimwright-" + self.assetsManifest.version;
const start = "index.html";

self.addEventListener("install", event => event.waitUntil((async () => {
  const cache = await caches.open(cacheName);
  try {
    await cache.addAll(self.assetsManifest.assets.filter(a => !a.url.endsWith("keeper.js"))
      .map(a => new Request(a.url, { integrity: a.hash, cache: "no-cache" })));
  } catch (fault) {
    // Half a version is none.
    await caches.delete(cacheName);
    throw fault;
  }
})()));

self.addEventListener("activate", event => event.waitUntil((async () => {
  for (const name of await caches.keys()) {
    if (name.startsWith("shimwright-") && name !== cacheName) { await caches.delete(name); }
  }
  await self.clients.claim();
})()));

self.addEventListener("message", event => { if (event.data === "take over") { self.skipWaiting(); } });

self.addEventListener("fetch", event => {
  const { request } = event;
  if (request.method !== "GET" || new URL(request.url).origin !== location.origin) { return; }
  event.respondWith((async () => {
    const cache = await caches.open(cacheName);
    // By the address alone: to let the cache leave out what stands behind the question mark makes it look at every file each time.
    const known = await cache.match(request.mode === "navigate" ? start : request.url.split("?")[0]);
    return known ?? fetch(request);
  })());
});
