// The browser's own database, which keeps the bench: rows under keys, each with the number of the change that put it there.
"use strict";

const name = "shimwright";
const edition = 1;
const part = "\u001f", end = "\u001e";
let db = null;
let last = 0;
// Why the last write failed: .NET passes on only what a fault says, not what it is called.
let failure = null;

const done = request => new Promise((resolve, reject) => { request.onsuccess = () => resolve(request.result); request.onerror = () => reject(request.error); });
const finished = tx => new Promise((resolve, reject) => { tx.oncomplete = () => resolve(); tx.onabort = () => reject(tx.error ?? new DOMException("The store was closed.", "AbortError")); });
// "strict": done means that the disk has it, not only the browser.
const write = stores => db.transaction(stores, "readwrite", { durability: "strict" });

function connect() {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(name, edition);
    request.onupgradeneeded = () => {
      const made = request.result;
      made.createObjectStore("rows", { keyPath: "k" }).createIndex("n", "n");
      made.createObjectStore("notes");
      made.createObjectStore("pictures", { keyPath: "id" }).createIndex("job", "job");
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
    request.onblocked = () => reject(new DOMException("Another page holds an older store.", "BlockedError"));
  });
}

// What lies beside the rows of the bench: whoever follows another bench looks there. It is taken away for good; of a row that is, an empty one stays for other pages.
const beside_ = ["base/", "deeds/", "left/", "step"];
const isBeside = key => beside_.some(b => key.startsWith(b));
const isThere = row => row.v !== "" || isBeside(row.k);
const text = rows => rows.map(r => r.k + part + r.v + end).join("");

export async function open() {
  db?.close();
  db = await connect();
  // A newer program wants the store: this one lets go, and says so at the next tap.
  db.onversionchange = () => db.close();
  const tx = db.transaction(["rows", "notes"]);
  const [rows, counted] = await Promise.all([done(tx.objectStore("rows").getAll()), done(tx.objectStore("notes").get("last"))]);
  last = counted ?? 0;
  return text(rows.filter(isThere));
}

export async function beside() {
  const store = db.transaction("rows").objectStore("rows");
  return text((await Promise.all(beside_.map(b => done(store.getAll(IDBKeyRange.bound(b, b + "\uffff")))))).flat());
}

export async function since() {
  const tx = db.transaction(["rows", "notes"]);
  const counted = await done(tx.objectStore("notes").get("last")) ?? 0;
  if (counted === last) { return ""; }
  const rows = await done(tx.objectStore("rows").index("n").getAll(IDBKeyRange.lowerBound(last, true)));
  last = counted;
  return text(rows.sort((a, b) => a.k < b.k ? -1 : 1));
}

export async function put(lines) {
  const tx = write(["rows", "notes", "pictures"]);
  const over = finished(tx);
  const rows = tx.objectStore("rows"), pictures = tx.objectStore("pictures");
  const number = last + 1;
  try {
    for (const line of lines.split(end)) {
      if (!line) { continue; }
      const [k, how, v] = line.split(part);
      if (how !== "d") { rows.put({ k, v, n: how === "q" ? 0 : number }); continue; }
      if (isBeside(k)) { rows.delete(k); continue; }
      rows.put({ k, v: "", n: number });
      if (k.startsWith("jobs/")) {
        pictures.index("job").getAllKeys(k.slice(5)).onsuccess = event => { for (const id of event.target.result) { pictures.delete(id); } };
      }
    }
    tx.objectStore("notes").put(number, "last");
  } catch (fault) {
    try { tx.abort(); } catch { /* It is over already. */ }
    await over.catch(() => {});
    failure = fault;
    throw fault;
  }
  try { await over; } catch (fault) { failure = fault; throw fault; }
  last = number;
}

export function takeFailure() { const was = failure; failure = null; return was; }

export async function note(key) { return await done(db.transaction("notes").objectStore("notes").get(key)) ?? null; }

export async function setNote(key, value) {
  const tx = write(["notes"]);
  const over = finished(tx);
  tx.objectStore("notes").put(value, key);
  await over;
}

export async function putPicture(id, job, row, content, thumb) {
  const tx = write(["pictures"]);
  const over = finished(tx);
  const store = tx.objectStore("pictures");
  // What .NET hands over is its own memory.
  const kept = { id, job, row, content: content.slice(), thumb: thumb.slice() };
  store.getKey(id).onsuccess = event => { if (event.target.result === undefined) { store.add(kept); } };
  await over;
}

export async function picture(id) { return await done(db.transaction("pictures").objectStore("pictures").get(id)) ?? null; }

export async function pictures(job) {
  const store = db.transaction("pictures").objectStore("pictures");
  const rows = [];
  await new Promise((resolve, reject) => {
    const cursor = (job ? store.index("job").openCursor(job) : store.openCursor());
    cursor.onerror = () => reject(cursor.error);
    cursor.onsuccess = () => { if (cursor.result) { rows.push(cursor.result.value.row); cursor.result.continue(); } else { resolve(); } };
  });
  return rows.join("\n");
}
