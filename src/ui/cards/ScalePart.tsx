import { Button } from "react-aria-components";
import {
  chooseScale,
  removeScale,
  type ScaleSource,
  setMeasuredScale,
  setStatedScale,
} from "../../editor/edits/scale.ts";
import type { Id } from "../../job/fields.ts";
import { scaleReadings } from "../../job/registration.ts";
import type { Sheet, Viewport } from "../../job/schema.ts";
import { useDesk, useSystem } from "../desk-context.ts";
import { LengthRow } from "../fields/LengthRow.tsx";
import { PickRow } from "../fields/PickRow.tsx";
import { TextRow } from "../fields/TextRow.tsx";
import { useAttempt } from "../use-attempt.ts";
import { CardPart } from "./CardFrame.tsx";
import { roundedScale } from "./rounded-scale.ts";
import { ScaleWitnesses } from "./ScaleWitnesses.tsx";

interface ScalePartProps {
  readonly id: Id;
  readonly viewport: Viewport;
  readonly sheet: Sheet;
}

/** Difference between the two scales from which it deserves a warning: a plot reduced by a percent or more. */
const WORTH_A_WORD = 0.01;

/** The scale as the sheet states it and as it was measured, side by side, and which of them is used. */
export function ScalePart({ id, viewport, sheet }: ScalePartProps) {
  const { session } = useDesk();
  const attempt = useAttempt();
  const system = useSystem();
  const { stated, measured } = viewport.scale;
  const readings = scaleReadings(sheet, viewport);
  return (
    <CardPart title="Scale">
      <div className="rows">
        <TextRow
          label="As the sheet states it"
          value={stated?.text ?? ""}
          placeholder={'1/8" = 1\'-0"'}
          onCommit={(text) =>
            attempt((job) => (text.trim() === "" ? removeScale(job, id, "stated") : setStatedScale(job, id, text)))
          }
        />
        <ScaleWitnesses id={id} viewport={viewport} sheet={sheet} />
        {measured && (
          <LengthRow
            label="Measured: distance between the two points"
            value={measured.distance}
            system={system}
            note={
              readings.measured === undefined
                ? undefined
                : `That is ${roundedScale(readings.measured)}${fromWords(measured.source)}`
            }
            onCommit={(distance) =>
              distance && attempt((job) => setMeasuredScale(job, id, measured.a, measured.b, distance))
            }
          />
        )}
        <Button
          className={`button small${stated || measured ? "" : " main"}`}
          onPress={() => session.start({ tool: "measure-scale", viewport: id })}
        >
          {measured ? "Measure again" : "Measure between two points"}
        </Button>
        {stated && measured && (
          <PickRow
            label="Used"
            value={viewport.scale.use}
            options={[
              { id: "stated", label: "As stated" },
              { id: "measured", label: "As measured" },
            ]}
            onChange={(use) => attempt((job) => chooseScale(job, id, use))}
          />
        )}
        {readings.disagreement !== undefined && <Comparison by={readings.disagreement} />}
      </div>
    </CardPart>
  );
}

/** What on the sheet a measured scale was taken from, after its figure. */
const fromWords = (source: ScaleSource | undefined): string =>
  source === "scale-bar"
    ? ", by the scale bar"
    : source === "dimensions"
      ? ", by the longest dimension near the middle of them"
      : "";

function Comparison({ by }: { readonly by: number }) {
  const percent = `${Math.abs(by * 100).toFixed(Math.abs(by) < 0.1 ? 2 : 0)}%`;
  if (Math.abs(by) < WORTH_A_WORD) return <p className="notice plain">The two agree within {percent}.</p>;
  return (
    <p className="notice">
      The measured scale is {percent} {by > 0 ? "larger" : "smaller"} than the stated one. The sheet may have been
      printed at another size, or a point was missed: measure a second dimension before you rely on either.
    </p>
  );
}
