import { Button } from "react-aria-components";
import { deleteRecords } from "../../editor/edits/delete-records.ts";
import { addStorey, setStorey } from "../../editor/edits/storeys.ts";
import { useDesk, useSession, useSystem } from "../desk-context.ts";
import { LengthRow } from "../fields/LengthRow.tsx";
import { TextRow } from "../fields/TextRow.tsx";
import { useAttempt } from "../use-attempt.ts";

/** The storeys with their finished floors above the project datum: AFF tags count from them. */
export function StoreyPart() {
  const { session } = useDesk();
  const attempt = useAttempt();
  const system = useSystem();
  const storeys = useSession((state) => state.job.storeys);
  const entries = Object.entries(storeys);
  return (
    <section className="block">
      <h3>Storeys</h3>
      <ul className="storeys">
        {entries.map(([id, storey]) => (
          <li key={id}>
            <TextRow
              label="Storey"
              value={storey.name}
              onCommit={(name) => attempt((job) => setStorey(job, id, { name }))}
            />
            <LengthRow
              label="Finished floor"
              value={storey.floor}
              system={system}
              onCommit={(floor) => floor && attempt((job) => setStorey(job, id, { floor }))}
            />
            {entries.length > 1 && (
              <Button
                className="button bare small"
                aria-label={`Delete ${storey.name}`}
                onPress={() => session.attempt(deleteRecords(session.getState().job, [{ table: "storeys", id }]))}
              >
                Delete
              </Button>
            )}
          </li>
        ))}
      </ul>
      <Button
        className="button small"
        onPress={() =>
          attempt((job) =>
            addStorey(job, session.newId(), {
              name: `Level ${entries.length + 1}`,
              floor: { value: 0, unit: system === "metric" ? "mm" : "in" },
            }),
          )
        }
      >
        Add a storey
      </Button>
    </section>
  );
}
