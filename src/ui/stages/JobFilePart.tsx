import { useState } from "react";
import { Button } from "react-aria-components";
import { useDesk } from "../desk-context.ts";
import { TickRow } from "../fields/TickRow.tsx";

/** The job as a file, to keep elsewhere or to hand on. */
export function JobFilePart() {
  const { host } = useDesk();
  const [withDrawings, setWithDrawings] = useState(true);
  return (
    <section className="block">
      <h3>Job file</h3>
      <TickRow label="With the drawings inside" isSelected={withDrawings} onChange={setWithDrawings} />
      <div className="acts">
        <Button className="button small" onPress={() => void host.saveJobFile(withDrawings)}>
          Save the job file
        </Button>
        <Button className="button small" onPress={() => void host.chooseFiles("job")}>
          Open a job file
        </Button>
      </div>
    </section>
  );
}
