// What a script can add; every page works without it.
(() => {
  "use strict";

  // How long the feels are dead after a page has come, ms: the second half of a double tap must not fall on the next blade.
  const dead = 600;

  // Keeps the screen awake on pages that ask for it, and says so where the browser does not allow it.
  let lock = null;
  async function keepAwake() {
    const place = document.querySelector("[data-keep-awake]");
    if (!place) {
      if (lock) { const old = lock; lock = null; await old.release().catch(() => {}); }
      return;
    }
    if (!("wakeLock" in navigator)) {
      place.textContent = "This browser cannot keep the screen on. Set a longer screen time-out while you measure.";
      return;
    }
    const says = "The screen stays on while this page is open.";
    if (lock) { place.textContent = says; return; }
    if (document.visibilityState !== "visible") { return; }
    try {
      lock = await navigator.wakeLock.request("screen");
      lock.addEventListener("release", () => { lock = null; });
      place.textContent = says;
    } catch {
      place.textContent = "The browser did not keep the screen on. Set a longer screen time-out while you measure.";
    }
  }
  document.addEventListener("visibilitychange", keepAwake);

  // What takes longer to work out than the page is fetched when the page is there. The cookie tells the bench that it may leave it out.
  // Not before the page has settled, and no longer than it is shown: what a thumb has passed by is not worked out.
  document.cookie = "script=1; path=/; SameSite=Lax";
  let parts = null;
  async function fetchParts() {
    parts?.abort();
    parts = new AbortController();
    const { signal } = parts;
    await new Promise(done => setTimeout(done, dead));
    if (signal.aborted) { return; }
    for (const place of document.querySelectorAll("[data-part]")) {
      const from = place.dataset.part;
      const id = place.id;
      delete place.dataset.part;
      place.dataset.fetching = from;
      try {
        const answer = await plainFetch(from, { signal });
        const part = new DOMParser().parseFromString(await answer.text(), "text/html").getElementById(id);
        // Another page may have come meanwhile and made something else of the place.
        if (place.id !== id || place.dataset.fetching !== from) { continue; }
        if (part) { place.replaceWith(part); } else { place.remove(); }
      } catch {
        // The link in its place still leads there.
      }
    }
  }

  // A tap shows at once that it was taken. Where the bench does not answer the page says so, and the same tap can be sent again: it counts once.
  const plainFetch = window.fetch.bind(window);
  let pressed = null;
  let offline = null;
  let settling = 0;
  function settle(time) {
    clearTimeout(settling);
    document.documentElement.classList.toggle("settling", time > 0);
    if (time > 0) { settling = setTimeout(() => document.documentElement.classList.remove("settling"), time); }
  }
  function busy(button) {
    pressed = button;
    button?.classList.add("pressed");
    document.documentElement.classList.add("busy");
  }
  function idle() {
    document.documentElement.classList.remove("busy");
    pressed?.classList.remove("pressed");
  }
  function say(words, again) {
    offline ??= document.body.appendChild(Object.assign(document.createElement("p"), { className: "offline" }));
    offline.setAttribute("role", "alert");
    offline.hidden = false;
    offline.replaceChildren(Object.assign(document.createElement("span"), { textContent: words }));
    if (again) {
      const button = Object.assign(document.createElement("button"), { type: "button", textContent: "Try again" });
      button.addEventListener("click", () => { offline.hidden = true; again(); });
      offline.append(button);
    }
  }
  window.fetch = async (what, how) => {
    const isPage = new Headers(how?.headers ?? what?.headers).get("accept")?.includes("blazor-enhanced-nav");
    if (!isPage) { return plainFetch(what, how); }
    const button = pressed;
    try {
      let answer = await plainFetch(what, how);
      // A bench that has too much to do has saved nothing: the same is sent again by itself before the page says so.
      for (let left = 3; left > 0 && answer.headers.has("shimwright-busy"); left--) {
        say("The bench is busy. This is sent again by itself.");
        await new Promise(done => setTimeout(done, dead));
        how?.signal?.throwIfAborted();
        answer = await plainFetch(what, how);
      }
      if (offline) { offline.hidden = true; }
      return answer;
    } catch (fault) {
      if (fault.name !== "AbortError") {
        idle();
        settle(0);
        const form = button?.isConnected ? button.form : null;
        say(form ? "Not saved. The bench does not answer." : "The bench does not answer.", form ? () => button.click() : () => location.reload());
        // Never settled: the page stays as it is, with what was typed.
        return new Promise(() => {});
      }
      throw fault;
    }
  };
  document.addEventListener("click", event => {
    const feel = event.target.closest?.("[data-feel]");
    if (feel && (document.documentElement.classList.contains("settling") || document.documentElement.classList.contains("busy"))) {
      event.preventDefault();
      event.stopImmediatePropagation();
    }
  }, true);
  // A form that is on its way is not sent a second time.
  document.addEventListener("submit", event => {
    if (event.target.hasAttribute("data-enhance") && document.documentElement.classList.contains("busy") && pressed?.form === event.target) {
      event.preventDefault();
      event.stopImmediatePropagation();
    } else if (!event.defaultPrevented) {
      busy(event.submitter);
    }
  }, true);
  document.addEventListener("click", event => {
    const link = event.target.closest?.("a[href]");
    if (link && !event.ctrlKey && !event.metaKey && !event.shiftKey && link.origin === location.origin && link.dataset.enhanceNav !== "false" && !link.download && !link.target && link.pathname + link.search !== location.pathname + location.search) { busy(link); }
  });

  // Keys for a keypad or a foot pedal: what a page offers has data-key; the arrows go along the blades.
  document.addEventListener("keydown", event => {
    const on = event.target;
    if (event.ctrlKey || event.metaKey || event.altKey || on.closest?.("input:not([type=radio]), select, textarea, summary")) { return; }
    if (event.key === "Enter" && on.closest?.("a, button")) { return; }
    if (event.key === "ArrowLeft" || event.key === "ArrowRight") {
      if (on.matches?.("input")) { return; }
      const chips = [...document.querySelectorAll("[data-blades] input")];
      const at = chips.findIndex(c => c.checked);
      const to = chips[Math.min(chips.length - 1, Math.max(0, at + (event.key === "ArrowRight" ? 1 : -1)))];
      if (to) { to.checked = true; to.closest("label").scrollIntoView({ block: "nearest", inline: "nearest" }); event.preventDefault(); }
      return;
    }
    const thing = [...document.querySelectorAll("[data-key]")].find(t => t.dataset.key === event.key);
    if (thing) { event.preventDefault(); if (!event.repeat) { thing.click(); } }
  });

  // Somebody else added to the job that is open: the page shows it, unless something is being typed on it.
  let news = null;
  function hear() {
    const place = document.querySelector("[data-news]");
    if (news?.url === (place ? new URL(place.dataset.news, location).href : null)) { look(); return; }
    news?.close();
    news = place ? new EventSource(place.dataset.news) : null;
    news?.addEventListener("added", event => { news.last = Number(event.data); look(); });
  }
  function look() {
    const place = document.querySelector("[data-news]");
    if (!place || !(news?.last > Number(place.dataset.last))) { return; }
    if (document.documentElement.classList.contains("busy")) { setTimeout(look, dead); return; }
    const typing = [...document.querySelectorAll("main input:not([type=hidden]), main textarea, main select")].some(f => f.type === "radio" || f.type === "checkbox" ? f.checked !== f.defaultChecked && f.type === "checkbox" : f.value !== (f.defaultValue ?? f.value));
    if (typing) {
      const button = Object.assign(document.createElement("button"), { type: "button", textContent: "Show it" });
      button.addEventListener("click", () => location.reload());
      place.replaceChildren("Somebody else added to this job. ", button);
    } else {
      place.dataset.last = news.last;
      window.Blazor?.navigateTo(location.href, { replaceHistoryEntry: true });
    }
  }

  let valve = null;
  const shown = () => {
    idle();
    // Another valve begins at the top, where the feels are at their place.
    const here = document.querySelector(".strip a[aria-current]")?.getAttribute("href") ?? null;
    if (here && valve && here !== valve) { scrollTo(0, 0); }
    valve = here;
    settle(dead);
    keepAwake();
    hear();
    fetchParts();
    for (const row of document.querySelectorAll("[data-blades]")) { row.querySelector("input:checked")?.closest("label").scrollIntoView({ block: "nearest", inline: "center" }); }
  };
  const ready = () => {
    shown();
    settle(0);
    if (window.Blazor && !ready.hooked) {
      ready.hooked = true;
      window.Blazor.addEventListener("enhancedload", shown);
      // What was refused is said at the top; a thumb that tapped further down would not see it.
      window.Blazor.addEventListener("enhancedload", () => {
        document.querySelector("main [role=alert]")?.scrollIntoView({ block: "center" });
      });
    }
  };
  if (document.readyState === "loading") { document.addEventListener("DOMContentLoaded", ready); } else { ready(); }

  // Printing is a button only where there is a script to do it.
  document.addEventListener("click", event => {
    if (event.target.closest("[data-print]")) { window.print(); }
  });
})();
