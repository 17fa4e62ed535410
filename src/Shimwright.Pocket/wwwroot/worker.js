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
let gate;

async function start() {
  // The keeper has compared every file with its checksum when it took them.
  const { setModuleImports, getAssemblyExports, runMain } = await dotnet.withConfig({ disableIntegrityCheck: true }).create();
  setModuleImports("store", store);
  await runMain();
  gate = (await getAssemblyExports("Shimwright.Pocket.dll")).Shimwright.Pocket.Gate.PocketGate;
  await gate.OpenAsync();
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

let turn = start().then(() => postMessage({ ready: true }), fault => postMessage({ ready: false, ...whyNot(fault) }));
onmessage = ({ data: message }) => {
  turn = turn.then(async () => {
    try {
      postMessage({ id: message.id, ...await take(message) });
    } catch (fault) {
      // What the program holds may be ahead of what is kept: it is read anew.
      const why = whyNot(fault);
      try { if (await gate.OpenAsync()) { why.error = words.emptied; } } catch (again) { Object.assign(why, whyNot(again)); }
      postMessage({ id: message.id, ...why });
    }
  });
};
