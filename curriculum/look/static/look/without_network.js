/* The pages of a running class while there is no network.
   The browser runs this beside the pages. It keeps the lecturer's page of the day and the
   projector's, those of one lesson and as they were last shown, with the files they are made of.
   The network is always asked first; what is kept is shown only when it does not answer, and the
   page says so. Signing in or out empties the shelf, on this device and without a network too. */
"use strict";

const SHELF = "the day";
const PAGE = /^\/lessons\/([^/]+)\/day\/(board\/)?$/;
const DAY = /^\/lessons\/[^/]+\/day\//;
const SIGNING = ["/sign-in/", "/sign-out/"];
const FILES = "/static/";
// A page that does not say until when it may be kept is kept for as long as a tap is believed.
const LONGEST = 12 * 60 * 60 * 1000;
// A network that says nothing for so long is no network for a person who stands before a class.
const PATIENCE = 8000;

let emptied = 0;

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (url.origin !== self.location.origin) return;
  if (SIGNING.includes(url.pathname) && request.method === "POST") {
    emptied += 1;
    event.waitUntil(caches.delete(SHELF));
  }
  if (request.method !== "GET") return;
  const part = request.headers.has("HX-Request");
  if (PAGE.test(url.pathname) && (part || request.mode === "navigate")) {
    event.respondWith(dayPage(event, url.pathname, part));
  } else if (DAY.test(url.pathname) && request.mode === "navigate") {
    event.respondWith(asked(request).catch(() => notKept(url.pathname)));
  } else if (url.pathname.startsWith(FILES)) {
    event.respondWith(fetch(request).catch(async () => (await caches.match(url.pathname)) || Response.error()));
  }
});

// A page that was open before this began asks to be kept, with the files it was made of.
self.addEventListener("message", (event) => {
  const { page, files } = event.data;
  if (PAGE.test(page)) event.waitUntil(keepWhole(page, files.filter((file) => file.startsWith(FILES))));
});

async function dayPage(event, path, part) {
  const key = part ? `${path}?part` : path;
  const before = emptied;
  try {
    const answer = await asked(event.request);
    if (answer.ok) event.waitUntil(keep(path, key, answer.clone(), before));
    else if (answer.status < 500) event.waitUntil(forget(path));
    return answer;
  } catch {
    return (await kept(key)) || (part ? Response.error() : notKept(path));
  }
}

function asked(request) {
  const late = new Promise((_, refuse) => setTimeout(() => refuse(new Error("no answer")), PATIENCE));
  return Promise.race([fetch(request), late]);
}

async function keep(path, key, answer, before) {
  const came = Date.now();
  const headers = new Headers(answer.headers);
  for (const name of ["Content-Length", "Content-Encoding"]) headers.delete(name);
  headers.set("X-Kept", String(came));
  const text = await answer.text();
  headers.set("X-Until", String(came + keptFor(text)));
  const body = text.replace(/(data-server="\d+")/, `$1 data-came="${came}"`);
  const shelf = await caches.open(SHELF);
  const lesson = PAGE.exec(path)[1];
  for (const old of await shelf.keys()) {
    const found = PAGE.exec(new URL(old.url).pathname);
    if (found && found[1] !== lesson) await shelf.delete(old);
  }
  if (before !== emptied) return;
  await shelf.put(key, new Response(body, { status: 200, headers }));
}

// The page says it by the server's clock: some time after the lesson's end, since names are on it.
function keptFor(text) {
  const [until, server] = ["until", "server"].map((name) => Number((new RegExp(`data-${name}="(\\d+)"`).exec(text) || [])[1]));
  return until && server ? Math.min(until - server, LONGEST) : LONGEST;
}

async function keepWhole(page, files) {
  const before = emptied;
  const shelf = await caches.open(SHELF);
  if (!(await shelf.match(page))) {
    const answer = await fetch(page, { redirect: "error" });
    if (answer.ok) await keep(page, page, answer, before);
  }
  for (const old of await shelf.keys()) {
    const { pathname } = new URL(old.url);
    if (pathname.startsWith(FILES) && !files.includes(pathname)) await shelf.delete(old);
  }
  for (const file of files) {
    if (before === emptied && !(await shelf.match(file))) await shelf.add(file);
  }
}

async function kept(key) {
  const shelf = await caches.open(SHELF);
  const found = await shelf.match(key);
  if (!found) return undefined;
  if (Date.now() < Number(found.headers.get("X-Until"))) return found;
  await shelf.delete(key);
  return undefined;
}

async function forget(path) {
  const shelf = await caches.open(SHELF);
  await Promise.all([shelf.delete(path), shelf.delete(`${path}?part`)]);
}

async function notKept(path) {
  const shelf = await caches.open(SHELF);
  const files = (await shelf.keys()).map((each) => new URL(each.url).pathname);
  const look = files.find((file) => /\/site[^/]*\.css$/.test(file));
  const day = `${path.split("/day/")[0]}/day/`;
  const back = files.includes(day) && path !== day ? `<p><a class="button first" href="${day}">Back to all benches</a></p>` : "";
  const words = `<!doctype html><html lang="en-GB"><head><meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1"><title>No network</title>
${look ? `<link rel="stylesheet" href="${look}">` : ""}</head><body class="bench"><div class="tray"><main id="main">
<h1>No network</h1><p>This page is not kept on this device. It opens again when the network is back.</p>${back}</main></div></body></html>`;
  return new Response(words, { status: 503, headers: { "Content-Type": "text/html; charset=utf-8" } });
}
