import { Button } from "react-aria-components";
import { addRaceway, removeRaceway, setSpacing } from "../../editor/edits/racks.ts";
import { wiringWords } from "../../issue/kinds/run.ts";
import { type Rack, type RackRaceway, racewayAsRun, racewayLabel } from "../../job/elements/rack.ts";
import type { Id } from "../../job/fields.ts";
import { useDesk, useSession, useSystem } from "../desk-context.ts";
import { LengthRow } from "../fields/LengthRow.tsx";
import { PickRow } from "../fields/PickRow.tsx";
import { TextRow } from "../fields/TextRow.tsx";
import { tagWords } from "../tag-words.ts";
import { useChange, useDelete } from "../use-change.ts";
import { useRename } from "../use-rename.ts";
import { CardFrame, CardPart } from "./CardFrame.tsx";
import { ElementFindings } from "./ElementFindings.tsx";
import { FactRows } from "./FactsPart.tsx";
import { VerticesPart } from "./VerticesPart.tsx";
import { WiringRows } from "./WiringRows.tsx";

/** The card of a rack: its raceways in their order across, where they lie, its vertices with their tags, what the check says of each. */
export function RackCard({ id, rack }: { readonly id: Id; readonly rack: Rack }) {
  const { session } = useDesk();
  const system = useSystem();
  const job = useSession((state) => state.job);
  const change = useChange("elements", id);
  const rename = useRename("elements", id);
  const remove = useDelete("elements", id);
  const set = (name: string, part: Partial<Rack>) => change(name, { ...rack, ...part });
  const { spacing } = rack;
  const tagged = [...new Set(rack.vertices.map(({ tag }) => tagWords(tag, job, system)))];
  return (
    <CardFrame
      kind="Rack"
      name={rack.label}
      tag={tagged.length === 1 ? tagged[0] : `${tagged[0]} to ${tagged[tagged.length - 1]}`}
    >
      <ElementFindings elementId={id} />
      <CardPart title="Rack">
        <div className="rows">
          <TextRow label="Label on the sheet" value={rack.label} onCommit={rename} />
          <p className="quiet">
            All raceways bear at one elevation: a tag to the bottom names that, a tag to the centre or top names those
            of the largest.
          </p>
          <PickRow
            label="Where they lie across"
            value={spacing.is}
            options={[
              { id: "centres", label: "Evenly spaced" },
              { id: "offsets", label: "Each by itself" },
            ]}
            onChange={(is) => session.attempt(setSpacing(session.getState().job, id, is))}
          />
          {spacing.is === "centres" && (
            <LengthRow
              label="From centre to centre"
              value={spacing.apart}
              system={system}
              onCommit={(apart) =>
                apart && set(`Change the spacing of ${rack.label}`, { spacing: { is: "centres", apart } })
              }
            />
          )}
        </div>
      </CardPart>
      <CardPart title="Raceways, from the left as traced">
        <ol className="raceways">
          {rack.raceways.map((raceway, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a raceway is known by its place on the rack
            <li key={i}>
              <RacewayPart id={id} rack={rack} i={i} raceway={raceway} />
            </li>
          ))}
        </ol>
        <Button
          className="button small"
          onPress={() => session.attempt(addRaceway(session.getState().job, id, rack.raceways.length - 1))}
        >
          Add a raceway
        </Button>
      </CardPart>
      <VerticesPart id={id} run={rack} />
      <Button className="button bare" onPress={remove}>
        Delete {rack.label}
      </Button>
    </CardFrame>
  );
}

interface RacewayPartProps {
  readonly id: Id;
  readonly rack: Rack;
  readonly i: number;
  readonly raceway: RackRaceway;
}

/** One raceway of a rack, folded up until it is asked for. */
function RacewayPart({ id, rack, i, raceway }: RacewayPartProps) {
  const { session } = useDesk();
  const system = useSystem();
  const change = useChange("elements", id);
  const label = racewayLabel(rack, i);
  const set = (name: string, next: RackRaceway) => change(name, { ...rack, raceways: rack.raceways.with(i, next) });
  const { spacing } = rack;
  return (
    <details>
      <summary>
        {label} · {wiringWords(racewayAsRun(rack, i))}
      </summary>
      <div className="rows">
        <TextRow
          label="Label after the rack's"
          value={raceway.label}
          placeholder={`${i + 1}`}
          onCommit={(text) => {
            const taken = rack.raceways.some((one, n) => n !== i && (one.label || `${n + 1}`) === text.trim());
            if (taken) return { ok: false, words: `Another raceway of ${rack.label} is called that.` };
            set(`Rename ${label}`, { ...raceway, label: text.trim() });
            return { ok: true };
          }}
        />
        {spacing.is === "offsets" && (
          <LengthRow
            label="To the right of the traced line"
            value={spacing.offsets[i] ?? null}
            system={system}
            onCommit={(length) =>
              length &&
              change(`Move ${label} across ${rack.label}`, {
                ...rack,
                spacing: { is: "offsets", offsets: spacing.offsets.with(i, length) },
              })
            }
          />
        )}
        <WiringRows label={label} raceway={raceway} onChange={set} />
        <FactRows facts={raceway.facts} onChange={(facts) => set(`Record facts of ${label}`, { ...raceway, facts })} />
        <Button
          className="button small"
          isDisabled={rack.raceways.length === 1}
          onPress={() => session.attempt(removeRaceway(session.getState().job, id, i))}
        >
          Take {label} off
        </Button>
      </div>
    </details>
  );
}
