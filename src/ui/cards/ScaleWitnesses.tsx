import { Button } from "react-aria-components";
import { setStatedScale } from "../../editor/edits/scale.ts";
import type { DrawnScale } from "../../editor/said/drawn-words.ts";
import { takeScale } from "../../editor/said/take-scale.ts";
import type { Id } from "../../job/fields.ts";
import { paperInchesPerUnit, usedScale } from "../../job/registration.ts";
import type { Sheet, Viewport } from "../../job/schema.ts";
import type { ScaleNote } from "../../units/scale-note.ts";
import { comparisonWords, witnessName } from "../scale-witness-words.ts";
import { useAttempt } from "../use-attempt.ts";
import { useScaleNotes } from "../use-scale-notes.ts";
import { useScaleWitnesses } from "../use-scale-witnesses.ts";
import { roundedScale } from "./rounded-scale.ts";

interface ScaleWitnessesProps {
  readonly id: Id;
  readonly viewport: Viewport;
  readonly sheet: Sheet;
}

/** So many scales written on one sheet are listed. */
const MOST_NOTES = 6;
/** A scale in use that differs by less is this one. */
const IN_USE = 5e-4;

/** What on the sheet tells the scale, side by side, and where it contradicts itself. None is taken before a person takes it. */
export function ScaleWitnesses({ id, viewport, sheet }: ScaleWitnessesProps) {
  const attempt = useAttempt();
  const notes = (useScaleNotes(id, viewport, sheet) ?? []).slice(0, MOST_NOTES);
  const { witnesses, comparisons } = useScaleWitnesses(id, viewport, sheet);
  const drawn = witnesses.filter(({ kind }) => kind !== "note" && kind !== "sheet-note");
  if (notes.length + drawn.length === 0) return null;
  const used = usedScale(sheet, viewport);
  const ratio = used === undefined ? undefined : used / paperInchesPerUnit(sheet);
  const isUsed = (each: number): boolean => ratio !== undefined && Math.abs(each / ratio - 1) < IN_USE;
  const nameOf = (note: ScaleNote): string => {
    const from = witnesses.find(
      (one) => (one.kind === "note" || one.kind === "sheet-note") && one.ratio === note.ratio,
    );
    return from ? witnessName(from) : "Written on the sheet";
  };
  const takeNote = (note: ScaleNote) => {
    const from = witnesses.find((one) => one.text === note.text && !one.measured);
    return attempt((job) => (from ? takeScale(job, id, from) : setStatedScale(job, id, note.text)));
  };
  return (
    <div className="rows">
      <ul className="witnesses" aria-label="What tells the scale">
        {notes.map((note) => (
          <Witness
            key={`note ${note.text}`}
            name={nameOf(note)}
            words={note.text}
            used={isUsed(note.ratio)}
            onTake={() => takeNote(note)}
          />
        ))}
        {drawn.map((one) => (
          <Witness
            key={`${one.kind} ${one.ratio}`}
            name={witnessName(one)}
            words={roundedScale(one.ratio)}
            used={isUsed(one.ratio)}
            onTake={() => attempt((job) => takeScale(job, id, one))}
          />
        ))}
      </ul>
      <div role="status">
        {comparisonWords(comparisons).map(({ words, agrees }) => (
          <p key={words} className={agrees ? "quiet" : "notice"}>
            {words}
          </p>
        ))}
      </div>
    </div>
  );
}

interface WitnessProps {
  readonly name: string;
  readonly words: DrawnScale["text"];
  readonly used: boolean;
  readonly onTake: () => void;
}

function Witness({ name, words, used, onTake }: WitnessProps) {
  return (
    <li className="witness">
      <span>
        {name}
        {used && <span className="quiet"> · in use</span>}
      </span>
      <Button className="button small" aria-label={`Take ${words}: ${name}`} onPress={onTake}>
        {words}
      </Button>
    </li>
  );
}
