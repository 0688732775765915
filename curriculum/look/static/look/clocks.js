/* The clocks of a running class, and its taps while the network is away.
   The server's minutes count: this only draws them, by the server's clock and not the device's.
   A tap is kept on the device until the server has it, is sent in its order, and has a key, so
   that a tap that arrives twice counts once. Without this module every button still posts.
   A page that is opened again while there is no network is the one last shown (without_network.js):
   its clock goes on from what the server said then, and it says of when it is. */
"use strict";

(() => {
  const SHELF = `taps ${location.pathname.split("/day/")[0]}`;
  const AGAIN_AFTER = 5000;
  const ONE_FINGER = 700;
  let offset = 0;
  let sending = false;
  let lastTap = { form: "", at: 0 };
  let refused = "";
  let finger = false;
  let away = false;

  const part = () => document.getElementById("day-now");
  const serverNow = () => Date.now() + offset;

  function read() {
    try {
      return JSON.parse(localStorage.getItem(SHELF) || "[]");
    } catch {
      return [];
    }
  }

  function write(taps) {
    try {
      localStorage.setItem(SHELF, JSON.stringify(taps));
      return true;
    } catch {
      return false;
    }
  }

  function key() {
    const bytes = crypto.getRandomValues(new Uint8Array(16));
    bytes[6] = (bytes[6] & 15) | 64;
    bytes[8] = (bytes[8] & 63) | 128;
    const hex = Array.from(bytes, (each) => each.toString(16).padStart(2, "0")).join("");
    return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
  }

  function setClock() {
    // The page of one bench has no clock that goes on, and says of when it is all the same.
    const now = part() || document.querySelector("[data-server]");
    if (now && now.dataset.server && now.dataset.read !== "yes") {
      // A kept page says when it came: the device's clock then goes with the server's of then.
      away = Boolean(now.dataset.came);
      offset = Number(now.dataset.server) - (Number(now.dataset.came) || Date.now());
      now.dataset.read = "yes";
    }
  }

  function minuteOf(instant) {
    const midnight = Number(part().dataset.midnight);
    return midnight ? Math.floor((instant - midnight) / 60000) : new Date(instant).getHours() * 60 + new Date(instant).getMinutes();
  }

  function clockWords(minute) {
    const hours = String(((Math.floor(minute / 60) % 24) + 24) % 24).padStart(2, "0");
    return `${hours}:${String(((minute % 60) + 60) % 60).padStart(2, "0")}`;
  }

  function draw() {
    const now = part();
    if (!now || !now.dataset.midnight) return;
    const minute = minuteOf(serverNow());
    for (const clock of now.querySelectorAll("[data-clock]")) set(clock, clockWords(minute));
    for (const timer of now.querySelectorAll("[data-ends]")) {
      const left = Number(timer.dataset.ends) - minute;
      const figure = timer.querySelector("b");
      const words = timer.querySelector("span");
      if (!figure || !words) continue;
      set(figure, `${Math.abs(left)} min`);
      figure.classList.toggle("over", left < 0);
      const counts = timer.dataset.counts;
      set(words, left >= 0 ? counts : counts === "left" ? "over" : "late");
    }
  }

  function set(node, words) {
    if (node.textContent !== words) node.textContent = words;
  }

  function tell(words) {
    const plate = document.querySelector("[data-unsent]");
    if (!plate) return;
    plate.hidden = !words;
    set(plate.querySelector("p"), words);
  }

  function tellWaiting() {
    const waiting = read().length;
    if (!waiting) return tell(refused);
    const [taps, go] = waiting === 1 ? ["One tap is", "It goes out by itself"] : [`${waiting} taps are`, "They go out by themselves"];
    tell(`${taps} kept on this device and not yet sent. ${go} when the network is back.`);
  }

  function tellAway() {
    const plate = document.querySelector("[data-away]");
    if (!plate) return;
    plate.hidden = !away;
    const of = away ? clockWords(minuteOf(Number(part().dataset.server))) : "";
    set(plate.querySelector("p"), away ? `No network: shown as of ${of}. The clock and the minutes go on.` : "");
  }

  function take(form) {
    const name = new URLSearchParams(new FormData(form));
    const called = ["what", "bench", "step", "part", "oven", "undoes"].map((each) => name.get(each)).join(" ");
    if (lastTap.form === called && Date.now() - lastTap.at < ONE_FINGER) return true;
    lastTap = { form: called, at: Date.now() };
    refused = "";
    name.set("key", key());
    name.set("device_at", new Date(serverNow()).toISOString());
    const url = new URL(form.action).pathname;
    const kept = write([...read(), { url, body: name.toString() }]);
    if (kept) {
      const button = form.querySelector("button");
      if (button) button.setAttribute("aria-busy", "true");
    }
    return kept;
  }

  async function send() {
    if (sending) return;
    sending = true;
    let sent = false;
    try {
      for (let taps = read(); taps.length; taps = read()) {
        const answer = await post(taps[0]);
        if (answer === "later") break;
        write(read().slice(1));
        sent = true;
        if (answer) {
          refused = answer;
        }
      }
      tellWaiting();
      if (sent) lookAgain();
    } finally {
      sending = false;
    }
  }

  async function post(tap) {
    const body = new URLSearchParams(tap.body);
    const token = document.querySelector("input[name=csrfmiddlewaretoken]");
    if (token) body.set("csrfmiddlewaretoken", token.value);
    try {
      const answer = await fetch(tap.url, { method: "POST", body, headers: { "X-Tap": "1" }, redirect: "manual" });
      if (answer.ok) return "";
      if (answer.status === 409) return (await answer.json()).message || "The last tap was refused.";
      if (answer.status === 400 || answer.status === 404) return "The last tap was refused: it is not one of this page.";
      if (answer.status === 401 || answer.status === 403 || answer.type === "opaqueredirect") {
        tell("You are signed out. The taps stay on this device; sign in again in another window.");
      }
      return "later";
    } catch {
      return "later";
    }
  }

  function lookAgain() {
    const now = part();
    if (now && now.hasAttribute("hx-get") && window.htmx) window.htmx.trigger(now, "look-again");
    else if (!now) location.reload();
  }

  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (!(form instanceof HTMLFormElement) || !form.hasAttribute("data-tap") || event.defaultPrevented) return;
    if (!take(form)) return;
    event.preventDefault();
    tellWaiting();
    send();
  });
  function keepHere() {
    const { serviceWorker } = navigator;
    const script = document.querySelector("script[data-without-network]");
    if (!serviceWorker || !script || !part()) return;
    const files = () => performance.getEntriesByType("resource").map((each) => new URL(each.name).pathname);
    serviceWorker.register(script.dataset.withoutNetwork, { scope: "/" })
      .then(() => Promise.all([serviceWorker.ready, document.fonts.ready]))
      .then(([ready]) => ready.active.postMessage({ page: location.pathname, files: [...new Set(files())] }))
      .catch(() => {});
  }

  // A row is not exchanged under a finger that is on it.
  document.addEventListener("pointerdown", () => { finger = true; });
  for (const end of ["pointerup", "pointercancel"]) document.addEventListener(end, () => { finger = false; });
  document.addEventListener("htmx:beforeSwap", (event) => {
    const now = part();
    if (event.detail.target !== now) return;
    const old = event.detail.xhr.getResponseHeader("X-Kept");
    const said = /data-server="(\d+)"/.exec(event.detail.xhr.responseText);
    if (finger || (old && said && Number(said[1]) <= Number(now.dataset.server))) event.detail.shouldSwap = false;
  });
  document.addEventListener("htmx:afterRequest", (event) => {
    if (event.detail.elt.id !== "day-now") return;
    away = !event.detail.xhr.status || Boolean(event.detail.xhr.getResponseHeader("X-Kept"));
    tellAway();
  });
  document.addEventListener("htmx:afterSettle", () => {
    setClock();
    draw();
    tellAway();
    tellWaiting();
  });
  document.addEventListener("visibilitychange", () => {
    if (document.hidden) return;
    draw();
    send();
    lookAgain();
  });
  window.addEventListener("online", () => {
    send();
    lookAgain();
  });

  setClock();
  draw();
  tellAway();
  tellWaiting();
  send();
  window.addEventListener("load", () => {
    if (away) lookAgain();
    keepHere();
  });
  setInterval(draw, 1000);
  setInterval(() => {
    if (read().length) send();
  }, AGAIN_AFTER);
})();
