import { Button } from "react-aria-components";
import { setElevation } from "../../editor/edits/areas.ts";
import type { Id } from "../../job/fields.ts";
import type { AreaShape } from "../../job/schema.ts";
import type { Length } from "../../units/length.ts";
import { parseSlope } from "../../units/slope.ts";
import { useDesk, useSystem } from "../desk-context.ts";
import { LengthRow } from "../fields/LengthRow.tsx";
import { PickRow } from "../fields/PickRow.tsx";
import { TextRow } from "../fields/TextRow.tsx";
import { allProblemWords } from "../problem-words.ts";
import { useAttempt } from "../use-attempt.ts";
import { shapeChoices } from "../words.ts";
import { AreaSpotsFields } from "./AreaSpotsFields.tsx";

/** How a deck lies: level, falling from one point in one direction, or through spots. */
export function AreaShapeFields({ id, shape }: { readonly id: Id; readonly shape: AreaShape }) {
  const { session } = useDesk();
  const attempt = useAttempt();
  const set = (next: AreaShape) => attempt((job) => setElevation(job, id, { shape: next }));
  const toShape: Readonly<Record<AreaShape["is"], () => void>> = {
    level: () => set({ is: "level", at: firstElevation(shape) }),
    slope: () => session.start({ tool: "slope-direction", area: id }),
    spots: () => session.start({ tool: "spots", area: id }),
  };
  return (
    <>
      <PickRow
        label="It lies"
        value={shape.is}
        options={shapeChoices}
        onChange={(is) => is !== shape.is && toShape[is]()}
      />
      {shape.is === "level" && <LevelFields shape={shape} onChange={set} />}
      {shape.is === "slope" && <SlopeFields shape={shape} onChange={set} pick={() => toShape.slope()} />}
      {shape.is === "spots" && <AreaSpotsFields id={id} shape={shape} />}
    </>
  );
}

function firstElevation(shape: AreaShape): Length | null {
  return shape.is === "spots" ? (shape.spots[0]?.elevation ?? null) : shape.at;
}

interface ShapeProps<K extends AreaShape["is"]> {
  readonly shape: Extract<AreaShape, { is: K }>;
  readonly onChange: (shape: AreaShape) => { readonly ok: true } | { readonly ok: false; readonly words: string };
}

function LevelFields({ shape, onChange }: ShapeProps<"level">) {
  const system = useSystem();
  return (
    <LengthRow
      label="Elevation"
      value={shape.at}
      system={system}
      empty="Not recorded"
      onCommit={(at) => onChange({ ...shape, at })}
    />
  );
}

function SlopeFields({ shape, onChange, pick }: ShapeProps<"slope"> & { readonly pick: () => void }) {
  const system = useSystem();
  return (
    <>
      <div className="pair">
        <LengthRow
          label="Elevation at the point"
          value={shape.at}
          system={system}
          empty="Not recorded"
          onCommit={(at) => onChange({ ...shape, at })}
        />
        <TextRow
          label="Slope"
          value={shape.text}
          placeholder={'1/4" per foot'}
          onCommit={(text) => {
            const slope = parseSlope(text);
            if (!slope.ok) return { ok: false, words: allProblemWords(slope.problems) };
            return onChange({ ...shape, text: slope.value.text, rise: slope.value.rise });
          }}
        />
      </div>
      <Button className="button small" onPress={pick}>
        Pick the point and the way down again
      </Button>
    </>
  );
}
