import { useState } from "react";
import { Button } from "react-aria-components";
import { deleteVertex, insertVertex } from "../../editor/edits/vertices.ts";
import { outlineOf, type ShapedTable, type Strand } from "../../editor/handles.ts";
import type { Id } from "../../job/fields.ts";
import { useDesk, useSession } from "../desk-context.ts";
import { PositionRows } from "./PositionRows.tsx";

/** A vertex of an outline: its number among all, what it is called, and whether it can be followed by another or taken out. */
interface Corner {
  readonly vertex: number;
  readonly name: string;
  readonly divides: boolean;
  readonly spare: boolean;
}

/** The corners of an outline, of its openings, and the points its elevation is given at, each to be opened, moved, added to and taken out. */
export function Corners({ table, id }: { readonly table: ShapedTable; readonly id: Id }) {
  const { session, view } = useDesk();
  const record = useSession((state) => state.job[table][id]);
  const selected = useSession(({ selection }) =>
    selection && "table" in selection && selection.id === id ? selection.vertex : undefined,
  );
  const [opened, setOpened] = useState<number>();
  const open = selected ?? opened;
  if (!record) return null;
  const { strands, vertices } = outlineOf(table, record);
  const choose = (vertex: number | undefined) => {
    setOpened(vertex);
    session.select({ table, id, ...(vertex === undefined ? {} : { vertex }) });
  };
  const insert = (vertex: number) => {
    const { job } = session.getState();
    const [a, b] = [vertices[vertex]!, nextOf(strands, vertex)];
    const middle = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] as const;
    if (session.attempt(insertVertex(job, table, id, vertex, middle))) choose(vertex + 1);
  };
  const remove = (vertex: number) => {
    if (session.attempt(deleteVertex(session.getState().job, table, id, vertex))) choose(undefined);
  };
  return (
    <details className="corners">
      <summary>Corners, one by one</summary>
      <ol className="vertices" aria-label="Corners">
        {cornersOf(strands).map(({ vertex, name, divides, spare }) => (
          <li key={vertex} className={open === vertex ? "open" : ""}>
            <Button
              className="vertex-button"
              aria-expanded={open === vertex}
              onPress={() => {
                choose(open === vertex ? undefined : vertex);
                view.goTo(vertices[vertex]!);
              }}
            >
              {name}
            </Button>
            {open === vertex && (
              <div className="vertex-body">
                <PositionRows table={table} id={id} vertex={vertex} />
                <div className="acts">
                  {divides && (
                    <Button className="button small" onPress={() => insert(vertex)}>
                      Add a corner after it
                    </Button>
                  )}
                  <Button className="button small" isDisabled={!spare} onPress={() => remove(vertex)}>
                    Delete it
                  </Button>
                </div>
              </div>
            )}
          </li>
        ))}
      </ol>
    </details>
  );
}

/** Every vertex of a record, by the words a person knows it under. */
function cornersOf(strands: readonly Strand[]): readonly Corner[] {
  let vertex = 0;
  return strands.flatMap(({ knots, closed, joined, least }, strand) =>
    knots.map((_, i) => ({
      vertex: vertex++,
      name: !closed
        ? `Point ${i + 1} of the elevation`
        : strand === 0
          ? `Corner ${i + 1}`
          : `Opening ${strand}, corner ${i + 1}`,
      divides: joined && (closed || i < knots.length - 1),
      spare: knots.length > least,
    })),
  );
}

/** The place of the vertex after one in its strand; in a closed one the first comes after the last. */
function nextOf(strands: readonly Strand[], vertex: number) {
  let start = 0;
  for (const { knots } of strands) {
    if (vertex < start + knots.length) return knots[(vertex - start + 1) % knots.length]!.at;
    start += knots.length;
  }
  throw new RangeError(`no vertex ${vertex}`);
}
