// What a script can add; every page works without it.
(() => {
  "use strict";

  // Keeps the screen awake on pages that ask for it, and says so where the browser does not allow it.
  let lock = null;
  const wants = () => document.querySelector("[data-keep-awake]");

  async function keepAwake() {
    const place = wants();
    if (!place) {
      if (lock) { const old = lock; lock = null; await old.release().catch(() => {}); }
      return;
    }
    if (!("wakeLock" in navigator)) {
      place.textContent = "This browser cannot keep the screen awake: set the screen's time-out longer while you measure.";
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
      place.textContent = "The browser did not allow the screen to be kept on: set its time-out longer while you measure.";
    }
  }

  document.addEventListener("visibilitychange", keepAwake);
  // What takes longer to work out than the page is fetched when the page is there. The cookie tells the bench that it may leave it out.
  document.cookie = "script=1; path=/; SameSite=Lax";
  async function fetchParts() {
    for (const place of document.querySelectorAll("[data-part]")) {
      const from = place.dataset.part;
      const id = place.id;
      delete place.dataset.part;
      place.dataset.fetching = from;
      try {
        const answer = await fetch(from);
        const part = new DOMParser().parseFromString(await answer.text(), "text/html").getElementById(id);
        // Another page may have come meanwhile and made something else of the place.
        if (place.id !== id || place.dataset.fetching !== from) { continue; }
        if (part) { place.replaceWith(part); } else { place.remove(); }
      } catch {
        // The link in its place still leads there.
      }
    }
  }

  const ready = () => {
    keepAwake();
    fetchParts();
    if (window.Blazor && !ready.hooked) {
      ready.hooked = true;
      window.Blazor.addEventListener("enhancedload", keepAwake);
      window.Blazor.addEventListener("enhancedload", fetchParts);
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
