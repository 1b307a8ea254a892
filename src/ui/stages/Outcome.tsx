import type { Problem } from "../../units/problem.ts";
import type { Issued } from "../host.ts";
import { problemWords } from "../problem-words.ts";

/** What was made, or why nothing was. */
export function Outcome({ outcome }: { outcome: Issued | { readonly problems: readonly Problem[] } }) {
  if ("problems" in outcome)
    return (
      <>
        {outcome.problems.map((problem) => (
          <p className="notice" key={`${problem.code}:${problem.where}`}>
            {problemWords(problem)}
          </p>
        ))}
      </>
    );
  return (
    <div className="notice plain">
      {outcome.files.map(({ name, bytes }) => (
        <p key={name}>
          {name}, {bytes < 1e6 ? `${Math.ceil(bytes / 1e3)} kB` : `${(bytes / 1e6).toFixed(1)} MB`}
        </p>
      ))}
      {outcome.notes.map((note) => (
        <p key={`${note.code}:${note.where}`}>{problemWords(note)}</p>
      ))}
    </div>
  );
}
