import type { PageGeometry } from "../../pdf/read/page-geometry.ts";
import { useHost, useSystem } from "../desk-context.ts";
import type { Drawing } from "../host.ts";
import { layersOn, numberWords, PAGE_KIND_WORDS, sizeWords } from "../sheet-index-words.ts";
import { sheetNumber } from "../sheet-titles.ts";
import { PageThumb } from "./PageThumb.tsx";

interface SheetLookProps {
  readonly drawing: Extract<Drawing, { is: "open" }>;
  readonly geometry: PageGeometry;
}

/** The longer side of the picture, CSS pixels. */
const LONG = 340;

/** A closer look at one sheet of a set: its picture, drawn when it is looked at, and all that the index says of it. */
export function SheetLook({ drawing, geometry }: SheetLookProps) {
  const system = useSystem();
  const indexed = useHost((state) => state.indexes[drawing.sha256]?.[geometry.page]) ?? {};
  const { entry, survey } = indexed;
  const numbered = entry !== undefined && sheetNumber(entry) !== null;
  const marks = Object.entries(entry?.annotations ?? {});
  const layers = survey ? layersOn(survey.layers, drawing.layers) : [];
  const facts: readonly (readonly [string, string])[] = [
    ...(numbered
      ? [["Number from", entry.numberFrom === "title-block" ? "its title block" : "the file's page label"] as const]
      : []),
    ["Size", sizeWords(geometry, system)],
    ["Turned by", `${geometry.rotate}°`],
    ["On it", survey ? PAGE_KIND_WORDS[survey.is] : survey === null ? "cannot be told" : "not read yet"],
    [
      "Annotations",
      !entry ? "not read yet" : marks.length === 0 ? "none" : marks.map(([kind, n]) => `${n} ${kind}`).join(", "),
    ],
    ...(drawing.layers.length > 0
      ? [["Layers", layers.length > 0 ? layers.map(({ name }) => name).join(", ") : "none"] as const]
      : []),
  ];
  return (
    <section className="sheet-look" aria-label={`Page ${geometry.page}, closer`}>
      <PageThumb key={geometry.page} handle={drawing.handle} geometry={geometry} long={LONG} />
      <h3>
        {numberWords(indexed) ?? `Page ${geometry.page}`}
        {entry?.name && <small>{entry.name}</small>}
      </h3>
      <dl>
        {facts.map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      {marks.length > 0 && <p className="quiet">Annotations that are on a sheet already stay as they are.</p>}
    </section>
  );
}
