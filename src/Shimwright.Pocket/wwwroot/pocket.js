// The bench's pages without a server: links and forms are taken over, the program in the worker is asked, and its page put in place of the old.
(() => {
  "use strict";

  const part = "\u001f", end = "\u001e";
  const listeners = [];
  const files = "a[download]";
  let here = "? ? ?";

  // Two copies of the program: one for pages and taps, one that works ahead for what a page leaves out, so that a tap need not wait for it.
  class Program {
    #worker; #next = 1; #waiting = new Map(); #last = Promise.resolve();
    constructor(query) {
      this.#worker = new Worker("worker.js" + query, { type: "module" });
      this.ready = new Promise((resolve, reject) => {
        this.#worker.onmessage = ({ data }) => {
          if ("ready" in data) { if (data.ready) { resolve(); } else { reject(data); } return; }
          const asked = this.#waiting.get(data.id);
          this.#waiting.delete(data.id);
          if (data.error) { asked?.reject(data); } else { asked?.resolve(data); }
        };
        this.#worker.onerror = () => {
          const why = { error: "The program has stopped. Close this page and open it again. What was saved is kept." };
          reject(why);
          for (const asked of this.#waiting.values()) { asked.reject(why); }
          this.#waiting.clear();
        };
      });
      this.ready.catch(() => {});
    }
    // Something that need not wait for what was asked before it.
    async beside(message) {
      await this.ready;
      const id = this.#next++;
      return new Promise((resolve, reject) => { this.#waiting.set(id, { resolve, reject }); this.#worker.postMessage({ id, ...message }); });
    }
    // One thing after the other; what nobody waits for any more is not asked.
    ask(message, signal) {
      const before = this.#last;
      const mine = (async () => {
        await this.ready;
        await before.catch(() => {});
        signal?.throwIfAborted();
        const id = this.#next++;
        return new Promise((resolve, reject) => { this.#waiting.set(id, { resolve, reject }); this.#worker.postMessage({ id, here, ...message }); });
      })();
      this.#last = mine;
      mine.catch(() => {});
      return mine;
    }
  }
  const program = new Program("");

  // In step with the bench that this page came from, where that is wished for: after a tap, now and then, and when the network is back.
  const stepEvery = 15_000, stepAfterTap = 1_500;
  let stepTimer = 0;
  const isTyping = () => [...document.querySelectorAll("main input:not([type=hidden]), main textarea, main select")]
    .some(field => field === document.activeElement || (field.defaultValue ?? field.value) !== field.value || (field.defaultChecked ?? field.checked) !== field.checked);
  async function goStep({ isAsked = false } = {}) {
    clearTimeout(stepTimer);
    if (!isAsked && document.hidden) { planStep(stepEvery); return; }
    const went = await program.beside({ step: true }).catch(() => ({ off: true }));
    document.documentElement.dataset.step = went.off ? "off" : went.away ? "away" : "in";
    // The page that counts what is still to send is shown anew whatever has come.
    const isCounted = at().address.startsWith("/settings/pocket");
    if (isAsked || ((went.changed || isCounted) && !document.documentElement.classList.contains("busy") && !isTyping())) { await go({ address: at().address, isQuiet: !isAsked }); }
    if (!went.off) { planStep(stepEvery); }
  }
  function planStep(after) { clearTimeout(stepTimer); stepTimer = setTimeout(goStep, after); }
  window.addEventListener("online", () => planStep(0));
  document.addEventListener("visibilitychange", () => { if (!document.hidden) { planStep(0); } });
  document.addEventListener("click", event => { if (event.target.closest?.("[data-go-step]")) { busy(); goStep({ isAsked: true }).finally(idle); } });
  let ahead = null;
  const lookAhead = () => ahead ??= new Program("?look");

  // Addresses of the bench stand behind the hash, so that the folder can lie anywhere.
  const at = () => { const [, address = "/", place = ""] = location.hash.split("#"); return { address: address.startsWith("/") ? address : "/", place }; };
  const isOurs = href => href?.startsWith("/");

  // A page that is only read out says nothing of where this one lies.
  const plain = html => html.replace(/<base [^>]*>/, "");

  // What pays next and other parts are fetched by the bench's script; here the program makes them.
  const plainFetch = window.fetch.bind(window);
  window.fetch = async (what, how) => {
    if (typeof what !== "string" || !isOurs(what)) { return plainFetch(what, how); }
    const answer = await lookAhead().ask({ address: what }, how?.signal);
    how?.signal?.throwIfAborted();
    return new Response(plain(answer.html ?? ""), { headers: { "Content-Type": "text/html" } });
  };

  // The new page in place of the old: what is the same stays, and with it the focus, open details and what is typed elsewhere.
  function morph(from, to) {
    if (from.nodeType !== to.nodeType || from.nodeName !== to.nodeName || (from.id ?? "") !== (to.id ?? "")) { from.replaceWith(document.importNode(to, true)); return; }
    if (from.nodeType !== Node.ELEMENT_NODE) { if (from.nodeValue !== to.nodeValue) { from.nodeValue = to.nodeValue; } return; }
    for (const { name } of [...from.attributes]) { if (!to.hasAttribute(name)) { from.removeAttribute(name); } }
    for (const { name, value } of to.attributes) { if (from.getAttribute(name) !== value) { from.setAttribute(name, value); } }
    const olds = [...from.childNodes], news = [...to.childNodes];
    news.forEach((child, i) => { if (olds[i]) { morph(olds[i], child); } else { from.append(document.importNode(child, true)); } });
    olds.slice(news.length).forEach(old => old.remove());
    if (from instanceof HTMLInputElement) { if (from.type === "checkbox" || from.type === "radio") { from.checked = to.hasAttribute("checked"); } else if (from.type !== "file") { from.value = to.getAttribute("value") ?? ""; } }
    if (from instanceof HTMLTextAreaElement) { from.value = to.textContent; }
    if (from instanceof HTMLSelectElement) { const chosen = [...to.options].findIndex(o => o.hasAttribute("selected")); from.selectedIndex = Math.max(0, chosen); }
  }

  let pictures = [];
  function put(html, { keep }) {
    const page = new DOMParser().parseFromString(plain(html), "text/html");
    for (const script of page.querySelectorAll("script, input[name=__RequestVerificationToken]")) { script.remove(); }
    for (const link of page.querySelectorAll("a[href^='/']")) {
      if (link.matches(".skip")) { link.setAttribute("href", "#main"); } else if (!link.matches(files)) { link.setAttribute("href", "#" + link.getAttribute("href")); }
    }
    for (const picture of page.querySelectorAll("img[src^='/']")) { picture.dataset.from = picture.getAttribute("src"); picture.removeAttribute("src"); }
    document.title = page.title;
    document.documentElement.dataset.theme = page.documentElement.dataset.theme ?? "system";
    for (const url of pictures) { URL.revokeObjectURL(url); }
    pictures = [];
    const said = document.querySelector("body > .offline");
    if (keep) {
      said?.remove();
      morph(document.body, page.body);
    } else {
      document.body.replaceChildren(...[...page.body.childNodes].map(n => document.importNode(n, true)));
    }
    if (said) { document.body.append(said); }
    for (const picture of document.querySelectorAll("img[data-from]")) { show(picture); }
  }
  // The page as it was shown last stands there at once at the next start, marked as busy, while the program comes up. Nothing can be typed on it: it would be gone.
  const remembered = "shimwright-last-page", longestRemembered = 300_000;
  function remember(address, html) {
    try { localStorage.setItem(remembered, html.length <= longestRemembered ? JSON.stringify([address, html]) : ""); } catch { localStorage.removeItem(remembered); }
  }
  function showRemembered() {
    try {
      const [address, html] = JSON.parse(localStorage.getItem(remembered) ?? "[]");
      if (address === at().address && html) { put(html, { keep: false }); busy(); document.querySelector("main").inert = true; }
    } catch { /* Then the page is made first. */ }
  }
  async function show(picture) {
    const { file } = await lookAhead().ask({ address: picture.dataset.from }).catch(() => ({}));
    if (!file || !picture.isConnected) { return; }
    const url = URL.createObjectURL(new Blob([file.content], { type: file.type }));
    pictures.push(url);
    picture.src = url;
  }
  async function save(address) {
    const { file } = await program.ask({ address });
    if (!file) { throw { error: "There is no such file." }; }
    const link = Object.assign(document.createElement("a"), { href: URL.createObjectURL(new Blob([file.content], { type: file.type })), download: file.name });
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  }
  async function share(address) {
    const { file } = await program.ask({ address });
    const shared = { files: [new File([file.content], file.name, { type: file.type })] };
    if (navigator.canShare?.(shared)) { await navigator.share(shared).catch(() => {}); } else { await save(address); }
  }

  // A tap that could not be saved is said, and can be sent again as it is: it counts once.
  let notice = null;
  function say(words, again, label = "Try again") {
    notice ??= Object.assign(document.createElement("p"), { className: "offline" });
    notice.setAttribute("role", "alert");
    notice.replaceChildren(Object.assign(document.createElement("span"), { textContent: words }));
    if (again) {
      const button = Object.assign(document.createElement("button"), { type: "button", textContent: label });
      button.addEventListener("click", () => { notice.remove(); again(); });
      notice.append(button);
    }
    document.body.append(notice);
  }
  const idle = () => { document.documentElement.classList.remove("busy"); document.querySelector(".pressed")?.classList.remove("pressed"); };
  const busy = () => document.documentElement.classList.add("busy");

  function reach(place) {
    const target = place ? document.getElementById(place) : null;
    target?.scrollIntoView();
    target?.focus({ preventScroll: true });
    return !!target;
  }

  let shown = null;
  let turn = 0;
  async function go({ address, place = "", form, given, how = "stay", scroll = 0, isQuiet = false }) {
    const mine = ++turn;
    if (!isQuiet) { busy(); }
    try {
      const answer = await program.ask(form ? { address, form, files: given } : { address });
      if (mine !== turn) { return; }
      if (answer.file) { idle(); await save(address); return; }
      const [path, anchor = ""] = answer.address.split("#");
      const isSame = shown?.split("?")[0] === path.split("?")[0];
      const hash = "#" + path;
      if (how === "push" && hash !== location.hash) { history.replaceState({ scroll: scrollY }, ""); history.pushState(null, "", hash); } else if (location.hash !== hash) { history.replaceState(history.state, "", hash); }
      put(answer.html, { keep: isSame });
      shown = path;
      remember(path, answer.html);
      notice?.remove();
      if (!reach(place || anchor) && !isSame) { scrollTo(0, scroll); document.querySelector("h1")?.setAttribute("tabindex", "-1"); document.querySelector("h1")?.focus({ preventScroll: true }); }
      for (const heard of listeners) { heard(); }
      idle();
      document.documentElement.dataset.asked = address;
      if (form) { hear(true); planStep(stepAfterTap); }
    } catch (fault) {
      if (mine !== turn || isQuiet) { return; }
      idle();
      say(fault.error ?? "The program does not answer. Close this page and open it again.", () => go({ address, place, form, given, how, scroll }));
      if (fault.detail) { console.warn(fault.detail); }
    }
  }

  document.addEventListener("click", event => {
    const share_ = event.target.closest?.("[data-share]");
    if (share_) { share(share_.dataset.share).catch(fault => say(fault.error ?? "That did not work.")); return; }
    const link = event.target.closest?.("a[href]");
    if (!link || event.defaultPrevented || event.ctrlKey || event.metaKey || event.shiftKey || event.button) { return; }
    const href = link.getAttribute("href");
    if (link.matches(files) && isOurs(href)) { event.preventDefault(); save(href).catch(fault => say(fault.error ?? "That did not work.")); return; }
    // What the bench's script has put into the page says its addresses as the bench does.
    if (!href.startsWith("#") && !isOurs(href)) { return; }
    event.preventDefault();
    const [, address, place] = isOurs(href) ? ["", ...href.split("#")] : href.startsWith("#/") ? href.split("#") : [null, shown, href.slice(1)];
    if (place && address === shown) { reach(place); return; }
    link.classList.add("pressed");
    go({ address, place, how: "push" });
  });

  // A phone's camera makes pictures that take the program long to unpack: the browser makes them smaller first.
  const longest = 1600;
  async function smaller(file) {
    if (!file.type.startsWith("image/")) { return file; }
    try {
      const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
      const by = longest / Math.max(picture.width, picture.height);
      if (by >= 1) { return file; }
      const canvas = new OffscreenCanvas(Math.round(picture.width * by), Math.round(picture.height * by));
      canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
      return new File([await canvas.convertToBlob({ type: "image/jpeg", quality: 0.85 })], file.name);
    } catch { return file; }
  }

  document.addEventListener("submit", async event => {
    const form = event.target;
    if (event.defaultPrevented) { return; }
    event.preventDefault();
    const data = new FormData(form, event.submitter);
    const action = (event.submitter?.getAttribute("formaction") ?? form.getAttribute("action") ?? "").replace(/^#/, "");
    const address = action.startsWith("/") ? action : at().address.split("?")[0] + (action.startsWith("?") ? action : at().address.includes("?") ? "?" + at().address.split("?")[1] : "");
    if (form.method === "get") {
      const query = new URLSearchParams([...data].filter(([, v]) => typeof v === "string")).toString();
      await go({ address: address.split("?")[0] + (query ? "?" + query : ""), how: "push" });
      return;
    }
    busy();
    const fields = [], given = {};
    for (const [name, value] of data) {
      if (typeof value === "string") { fields.push(name + part + value.replaceAll("\n", "\r\n").replaceAll("\r\r\n", "\r\n") + end); continue; }
      if (value.size > 0) { const file = await smaller(value); given[name] = { name: value.name, content: await file.arrayBuffer() }; }
    }
    await go({ address, form: fields.join(""), given, how: "push" });
  });

  window.addEventListener("popstate", event => { const { address, place } = at(); go({ address, place, scroll: event.state?.scroll ?? 0 }); });

  // What the bench's script asks of the framework's.
  window.Blazor = {
    addEventListener: (_, heard) => listeners.push(heard),
    navigateTo: address => go({ address: address.includes("#") ? address.split("#")[1] : at().address }),
  };

  // What the browser says of its store. Asked to keep it once something is kept: browsers grant that to pages that are used.
  async function hear(ask) {
    const lasting = await navigator.storage?.[ask ? "persist" : "persisted"]?.().catch(() => null);
    const estimate = await navigator.storage?.estimate?.().catch(() => null);
    here = [lasting === true ? "yes" : lasting === false ? "no" : "?", estimate?.usage ?? "?", estimate?.quota ?? "?"].join(" ");
  }

  // A whole next version is there: it takes over when the person says so, or when no page of this one is open any more.
  async function keepUp() {
    if (!("serviceWorker" in navigator)) { return; }
    const registration = await navigator.serviceWorker.register("keeper.js", { updateViaCache: "none" }).catch(() => null);
    if (!registration) { return; }
    const consider = () => {
      // Never in the middle of a job.
      if (registration.waiting && navigator.serviceWorker.controller && !at().address.startsWith("/jobs/")) {
        say("A newer Shimwright is ready.", () => registration.waiting?.postMessage("take over"), "Use it now");
      }
    };
    const follow = () => registration.installing?.addEventListener("statechange", consider);
    listeners.push(consider);
    registration.addEventListener("updatefound", follow);
    // One that was found before this page asked.
    follow();
    consider();
    let asked = !!navigator.serviceWorker.controller;
    navigator.serviceWorker.addEventListener("controllerchange", () => { if (asked) { location.reload(); } asked = true; });
  }

  const begin = async () => {
    showRemembered();
    await hear(false);
    try {
      await program.ready;
      const { address, place } = at();
      await go({ address, place });
      planStep(0);
    } catch (fault) {
      idle();
      say(fault.error ?? "The program does not start here. Use a newer browser.", () => location.reload());
    }
    // Only now: what the keeper loads would hold up what the first page waits for. Where this version does not start the next one may.
    keepUp();
  };
  if (document.readyState === "loading") { document.addEventListener("DOMContentLoaded", begin); } else { begin(); }
})();
