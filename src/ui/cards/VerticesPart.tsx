import { useMemo, useState } from "react";
import { Button } from "react-aria-components";
import { act } from "../../editor/acts.ts";
import { addEntry } from "../../editor/edits/elements.ts";
import { meetingRuns } from "../../editor/edits/split-run.ts";
import type { Rack } from "../../job/elements/rack.ts";
import type { Run } from "../../job/elements/run.ts";
import type { Id } from "../../job/fields.ts";
import { useDesk, useSession, useSystem } from "../desk-context.ts";
import { TagFields } from "../fields/TagFields.tsx";
import { tagWords } from "../tag-words.ts";
import { useChange } from "../use-change.ts";
import { CardPart } from "./CardFrame.tsx";
import { PositionRows } from "./PositionRows.tsx";

/** The vertices of a run or rack in order, each with its tag; the chosen one opens. */
export function VerticesPart({ id, run }: { readonly id: Id; readonly run: Run | Rack }) {
  const { session, view } = useDesk();
  const system = useSystem();
  const job = useSession((state) => state.job);
  const selected = useSession(({ selection }) =>
    selection && "table" in selection && selection.id === id ? selection.vertex : undefined,
  );
  const [opened, setOpened] = useState<number | undefined>(undefined);
  const open = selected ?? opened;
  const change = useChange("elements", id);
  const setVertices = (name: string, vertices: Run["vertices"]) => change(name, { ...run, vertices });
  const meeting = useMemo(() => meetingRuns(job, id), [job, id]);
  const storey = job.viewports[run.viewport]?.storey ?? null;
  const enter = (index: number) => {
    const entryId = session.newId();
    const at = run.vertices[index]!.at;
    if (session.attempt(addEntry(job, entryId, { viewport: run.viewport, at, run: id })))
      session.select({ table: "elements", id: entryId });
  };
  const add = (after: number) => {
    const from = run.vertices[after]!;
    const to = run.vertices[after + 1];
    const at = to
      ? ([(from.at[0] + to.at[0]) / 2, (from.at[1] + to.at[1]) / 2] as const)
      : ([from.at[0] + 18, from.at[1]] as const);
    setVertices(
      `Add a vertex to ${run.label}`,
      run.vertices.toSpliced(after + 1, 0, { at, tag: to ? null : from.tag }),
    );
  };
  return (
    <CardPart title="Vertices">
      <ol className="vertices" aria-label="Vertices">
        {run.vertices.map((vertex, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a vertex is known by its place in the run
          <li key={index} className={open === index ? "open" : ""}>
            <Button
              className="vertex-button"
              aria-expanded={open === index}
              onPress={() => {
                setOpened(open === index ? undefined : index);
                session.select({ table: "elements", id, ...(open === index ? {} : { vertex: index }) });
                view.goTo(vertex.at);
              }}
            >
              <span className="vertex-number">{index + 1}</span>
              <span className={vertex.tag ? "" : "quiet"}>
                {vertex.tag ? tagWords(vertex.tag, job, system) : "Between its neighbours' tags"}
              </span>
            </Button>
            {open === index && (
              <div className="vertex-body">
                <PositionRows table="elements" id={id} vertex={index} />
                <TagFields
                  tag={vertex.tag}
                  storey={storey}
                  onChange={(tag) =>
                    setVertices(
                      `Change the tag at vertex ${index + 1} of ${run.label}`,
                      run.vertices.with(index, { ...vertex, tag }),
                    )
                  }
                />
                <div className="acts">
                  <Button className="button small" onPress={() => add(index)}>
                    Add a vertex after it
                  </Button>
                  {"wiring" in run && (
                    <>
                      <Button className="button small" onPress={() => enter(index)}>
                        Conductors enter here
                      </Button>
                      {index > 0 && index < run.vertices.length - 1 && (
                        <Button className="button small" onPress={() => act("split-run").run(session)}>
                          Split the run here
                        </Button>
                      )}
                    </>
                  )}
                  <Button
                    className="button small"
                    isDisabled={run.vertices.length <= 2}
                    onPress={() => {
                      setOpened(undefined);
                      session.select({ table: "elements", id });
                      setVertices(`Delete vertex ${index + 1} of ${run.label}`, run.vertices.toSpliced(index, 1));
                    }}
                  >
                    Delete it
                  </Button>
                </div>
              </div>
            )}
          </li>
        ))}
      </ol>
      <Button
        className="button small"
        isDisabled={run.vertices[0]?.tag == null}
        onPress={() => {
          const tag = run.vertices[0]!.tag;
          setVertices(
            `Give all of ${run.label} one tag`,
            run.vertices.map((vertex) => ({ ...vertex, tag })),
          );
        }}
      >
        Give every vertex the first one's tag
      </Button>
      {meeting.length === 1 && (
        <Button className="button small" onPress={() => act("join-runs").run(session)}>
          Join {job.elements[meeting[0]!]!.label} to it
        </Button>
      )}
    </CardPart>
  );
}
