// The program runs here, beside the page: whatever it works out, the page stays awake.
import { dotnet } from "./_framework/dotnet.js";
import * as store from "./store.js";

const words = {
  QuotaExceededError: "Not saved. This phone has no room left. Delete something else on it, then try again.",
  VersionError: "A newer Shimwright keeps this bench. Close this page and open it again.",
  BlockedError: "Shimwright is open in another window of an older edition. Close that window and try again.",
  emptied: "The browser threw its store away. The bench is there again, but its photos are gone. Save a copy now: Settings, This phone.",
  fault: "That was a fault of the program. What was saved before is kept; look whether the last thing you sent is there.",
  other: "Not saved. The browser's store does not answer. Close this page and open it again, then look whether it is there.",
};
const lockName = "shimwright-bench";
// The worker that works ahead only looks; the other one saves.
const isLooking = new URL(location.href).searchParams.has("look");
// Where the folder lies: what is printed leads back to it.
const home = new URL(".", location.href).href;
let gate;

async function start() {
  // The keeper has compared every file with its checksum when it took them.
  const { setModuleImports, getAssemblyExports, runMain } = await dotnet.withConfig({ disableIntegrityCheck: true }).create();
  setModuleImports("store", store);
  await runMain();
  gate = (await getAssemblyExports("Shimwright.Pocket.dll")).Shimwright.Pocket.Gate.PocketGate;
  await gate.OpenAsync(home);
}

const whyNot = fault => {
  const failure = store.takeFailure();
  const why = failure ?? fault;
  return { error: words[why?.name] ?? (failure || why instanceof DOMException ? words.other : words.fault), detail: `${why?.name} ${why?.message}\n${why?.stack ?? ""}` };
};

async function visit({ address, form, files, here }) {
  for (const [field, file] of Object.entries(files ?? {})) { gate.Attach(field, file.name, new Uint8Array(file.content)); }
  const answer = await gate.VisitAsync(address, form ?? null, here);
  const first = answer.indexOf("\n"), second = answer.indexOf("\n", first + 1);
  return { outcome: answer.slice(0, first), next: answer.slice(first + 1, second), html: answer.slice(second + 1) };
}

async function go(message) {
  if (message.form === undefined) {
    await gate.FollowAsync();
    const file = await gate.FetchAsync(message.address);
    if (file) {
      const [type, name] = file.split("\n");
      const content = gate.Fetched();
      return { file: { type, name, content } };
    }
  }
  let sent = message;
  let address = message.address;
  for (let i = 0; i < 5; i++) {
    const answer = await visit({ ...sent, address });
    if (answer.outcome !== "SentOn") { return { ...answer, address }; }
    address = answer.next;
    sent = { here: message.here };
  }
  throw new Error("The pages lead round in a circle.");
}

async function take(message) {
  if (message.form === undefined || isLooking) { return go(message); }
  // One page of this browser saves at a time, upon what the others have saved.
  return navigator.locks.request(lockName, async () => {
    await gate.FollowAsync();
    const answer = await go(message);
    if (gate.HasFailed()) { throw new Error("It was not kept."); }
    return answer;
  });
}

// A step with the bench that this page came from: the network is waited for beside the turns, what is here is looked at and changed in them.
const bench = new URL("../api/v1/sync", location.href);
const inTurn = work => { const mine = turn.then(() => navigator.locks.request(lockName, async () => { await gate.FollowAsync(); return work(); })); turn = mine.catch(() => {}); return mine; };
const away = "The bench is out of reach. What you enter is kept here and sent later.";

async function asked(address, how) {
  if (!navigator.onLine) { throw new Error(away); }
  const answer = await fetch(address, { cache: "no-store", credentials: "same-origin", ...how }).catch(() => null);
  if (answer?.ok) { return answer.text(); }
  throw new Error(answer?.status === 401 ? "The bench does not know this phone any more. Enter its code on the bench's page." : answer?.status === 403 ? "This phone may not do that at the bench." : away);
}

async function step() {
  const device = await inTurn(() => gate.StepBegin());
  if (!device) { return { off: true }; }
  const headers = { "Content-Type": "application/json", "X-Shimwright-Device": "Phone " + device.slice(0, 4) };
  let isOther = false;
  for (let body; !isOther && (body = await inTurn(() => gate.StepNextAsync()));) { isOther = !gate.StepHear(await asked(bench, { method: "POST", headers, body })); }
  for (let query; !isOther && (query = gate.StepQuery());) {
    const pictures = gate.StepAdd(await asked(`${bench}?${query}`));
    isOther = pictures === null;
    for (const id of pictures?.split("\n").filter(p => p) ?? []) {
      if (!await store.picture(id)) { await gate.StepPictureAsync(await asked(`${bench}/pictures/${id}`)); }
    }
  }
  if (isOther) { throw new Error("This is another bench than the one this phone keeps in step with, or it was restored from a copy. Look under Settings, This phone."); }
  return { changed: await inTurn(() => gate.StepTakeAsync()) };
}

let stepping = null;
async function stepOnce() {
  stepping ??= step().finally(() => { stepping = null; });
  return stepping;
}

let turn = start().then(() => postMessage({ ready: true }), fault => postMessage({ ready: false, ...whyNot(fault) }));
onmessage = async ({ data: message }) => {
  if (message.step) {
    try { postMessage({ id: message.id, ...await stepOnce() }); } catch (fault) {
      gate?.StepFail(fault.message);
      if (gate?.HasFailed()) { turn = turn.then(() => gate.OpenAsync(home)); await turn; }
      postMessage({ id: message.id, away: true, words: fault.message });
    }
    return;
  }
  turn = turn.then(async () => {
    try {
      postMessage({ id: message.id, ...await take(message) });
    } catch (fault) {
      // What the program holds may be ahead of what is kept: it is read anew.
      const why = whyNot(fault);
      try { if (await gate.OpenAsync(home)) { why.error = words.emptied; } } catch (again) { Object.assign(why, whyNot(again)); }
      postMessage({ id: message.id, ...why });
    }
  });
};
