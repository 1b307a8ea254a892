import "../ui/theme.css";
import "../ui/controls.css";
import "../ui/layout.css";
import "../ui/card.css";
import "../ui/sheet-index.css";
import "../ui/profile.css";
import "../ui/work.css";
import "../ui/loupe.css";
import "../ui/new-issue/new-issue.css";
import { namesJob } from "./asked-ahead.ts";

// The first script of the page, small enough to run before the program has come.
void import("./main.tsx");
if (namesJob) {
  // Asked for beside the program; a file that cannot be had is told by who needs it.
  import("../ui/desk-parts.ts").catch(() => undefined);
  import("../store/job-file.ts").catch(() => undefined);
}
