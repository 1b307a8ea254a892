import { Button } from "react-aria-components";
import { useDesk, useSession } from "./desk-context.ts";
import { later } from "./later.tsx";

const JobMenu = later(() => import("./JobMenu.tsx").then((part) => part.JobMenu));

/** The name of the job, and what concerns the job as a whole. */
export function JobHead() {
  const { view } = useDesk();
  const name = useSession((state) => state.job.settings.job.name);
  return (
    <header className="job-head">
      <h1 title={name}>{name}</h1>
      <Button
        className="button bare small"
        onPress={() => view.store.setState({ finder: true })}
        aria-label="Find an act"
      >
        Acts <kbd>F1</kbd>
      </Button>
      <JobMenu />
    </header>
  );
}
