import { createStore, delMany, get, keys, set, update, values } from "idb-keyval";
import { createRoot } from "react-dom/client";
import { PageRenderer } from "../canvas/page-renderer.ts";
import { createSession } from "../editor/create-session.ts";
import { emptyJob } from "../job/schema.ts";
import { indexedDbStore } from "../store/indexed-db-store.ts";
import { loadParts } from "../ui/later.tsx";
import { Root } from "../ui/Root.tsx";
import { reportBug } from "../ui/report-bug.ts";
import { createView } from "../ui/view.ts";
import { drawingWorker } from "./asked-ahead.ts";
import { backgroundCheck } from "./background-check.ts";
import { createHost } from "./create-host.ts";
import { firstView } from "./first-view.ts";

const query = new URLSearchParams(window.location.search);
const [sample, job] = [query.get("sample"), query.get("job")];
const seen = firstView((then, ms) => {
  const timer = setTimeout(then, ms);
  return () => clearTimeout(timer);
});
if (sample !== null || job !== null) seen.awaited();
const background = backgroundCheck(seen);
const session = createSession({
  job: emptyJob("Untitled job", "us-2023"),
  newId: () => crypto.randomUUID(),
  check: background.check,
  onBug: reportBug,
});
const renderer = new PageRenderer({ startWorker: drawingWorker, onLost: (lost) => lost.final && reportBug(lost) });
const functions = { createStore, delMany, get, keys, set, update, values };
const store = indexedDbStore(functions, "underside", background.text);
const host = createHost(session, renderer, store, background, seen);
const view = createView();

window.addEventListener("beforeunload", (event) => {
  const { showing, save } = host.state.getState();
  if (showing === "desk" && (save?.is === "saving" || save?.is === "not-saved")) event.preventDefault();
});

async function begin(): Promise<void> {
  if (sample !== null || job !== null) loadParts("with-a-desk");
  // What the first view did without, while nothing else is to be done.
  void seen.wait().then(() => requestIdleCallback(() => loadParts("afterwards"), { timeout: 500 }));
  if (sample !== null) await host.openSample(sample);
  else if (job !== null) await host.openKept(job);
  if (host.state.getState().showing === "desk") return;
  seen.over();
  await host.showStart();
}

const root = document.getElementById("root");
if (!root) throw new Error("the page has no root");
createRoot(root).render(<Root desk={{ session, host, view }} />);
void begin();
