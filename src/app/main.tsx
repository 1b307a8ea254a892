import { createStore, delMany, get, keys, set, update, values } from "idb-keyval";
import { createRoot } from "react-dom/client";
import { PageRenderer } from "../canvas/page-renderer.ts";
import { createSession } from "../editor/create-session.ts";
import { emptyJob } from "../job/schema.ts";
import { indexedDbStore } from "../store/indexed-db-store.ts";
import "../ui/theme.css";
import "../ui/controls.css";
import "../ui/layout.css";
import "../ui/card.css";
import "../ui/sheet-index.css";
import "../ui/profile.css";
import "../ui/work.css";
import "../ui/loupe.css";
import "../ui/new-issue/new-issue.css";
import { loadParts } from "../ui/later.tsx";
import { Root } from "../ui/Root.tsx";
import { reportBug } from "../ui/report-bug.ts";
import { createView } from "../ui/view.ts";
import { backgroundCheck } from "./background-check.ts";
import { createHost } from "./create-host.ts";

const background = backgroundCheck();
const session = createSession({
  job: emptyJob("Untitled job", "us-2023"),
  newId: () => crypto.randomUUID(),
  check: background.check,
  onBug: reportBug,
});
const renderer = new PageRenderer({ onLost: (lost) => lost.final && reportBug(lost) });
const functions = { createStore, delMany, get, keys, set, update, values };
const store = indexedDbStore(functions, "underside", background.text);
const host = createHost(session, renderer, store, background);
const view = createView();

window.addEventListener("beforeunload", (event) => {
  const { showing, save } = host.state.getState();
  if (showing === "desk" && (save?.is === "saving" || save?.is === "not-saved")) event.preventDefault();
});

async function begin(): Promise<void> {
  const query = new URLSearchParams(window.location.search);
  const [sample, job] = [query.get("sample"), query.get("job")];
  if (sample !== null || job !== null) loadParts("with-a-desk");
  if (sample !== null) await host.openSample(sample);
  else if (job !== null) await host.openKept(job);
  if (host.state.getState().showing === "start") await host.showStart();
  // What the first view did without, while nothing else is to be done.
  requestIdleCallback(() => loadParts("afterwards"), { timeout: 2000 });
}

const root = document.getElementById("root");
if (!root) throw new Error("the page has no root");
createRoot(root).render(<Root desk={{ session, host, view }} />);
void begin();
