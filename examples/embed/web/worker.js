// examples/embed/web/worker.js - keeps the page's own files, so that it works without a network
//
// A newer page replaces the kept one when the network is there.
// SPDX-License-Identifier: BSL-1.0
const kept = "barwright";
const files = ["./", "index.html", "page.css", "page.js", "bar.js", "words.js", "log.js", "library.js", "barwright.mjs", "barwright.wasm"];

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(kept).then((cache) => cache.addAll(files)));
});

self.addEventListener("fetch", (event) => {
  const is_own = new URL(event.request.url).origin === location.origin;
  if (event.request.method !== "GET" || !is_own) return;
  const fresh = fetch(event.request).then(async (answer) => {
    if (answer.ok) await (await caches.open(kept)).put(event.request, answer.clone());
    return answer;
  });
  event.respondWith(fresh.catch(async () => (await caches.match(event.request, { ignoreSearch: true })) ?? Response.error()));
});
