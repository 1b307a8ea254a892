import { Button } from "react-aria-components";
import { removeSheet } from "../../editor/edits/delete-records.ts";
import { setSheetTitle, setViewport } from "../../editor/edits/sheets.ts";
import type { Id } from "../../job/fields.ts";
import { paperInchesPerUnit, usedScale } from "../../job/registration.ts";
import type { Viewport } from "../../job/schema.ts";
import { displaySize } from "../../pdf/read/page-geometry.ts";
import { ActButton } from "../ActButton.tsx";
import { useDesk, useHost, useSession, useSystem } from "../desk-context.ts";
import { ChoiceRow } from "../fields/ChoiceRow.tsx";
import { TextRow } from "../fields/TextRow.tsx";
import { paperSize } from "../paper-size.ts";
import { useAttempt } from "../use-attempt.ts";
import { CardFrame, CardPart } from "./CardFrame.tsx";
import { KeptGridPart } from "./KeptGridPart.tsx";
import { LayersPart } from "./LayersPart.tsx";
import { LineworkPart } from "./LineworkPart.tsx";
import { PartsPart, RemovePart } from "./PartsPart.tsx";
import { RegistrationPart } from "./RegistrationPart.tsx";
import { roundedScale } from "./rounded-scale.ts";
import { ScalePart } from "./ScalePart.tsx";

/** The card of a sheet, or of a part of one: its scale, how it lies on another sheet, the storey its tags count from. */
export function ViewportCard({ id, viewport }: { readonly id: Id; readonly viewport: Viewport }) {
  const { session } = useDesk();
  const attempt = useAttempt();
  const system = useSystem();
  const sheet = useSession((state) => state.job.sheets[viewport.sheet]);
  const storeys = useSession((state) => state.job.storeys);
  const drawing = useHost((state) => (sheet ? state.drawings[sheet.file.sha256] : undefined));
  if (!sheet) return null;
  const scale = usedScale(sheet, viewport);
  const ratio = scale === undefined ? undefined : scale / paperInchesPerUnit(sheet);
  const size = displaySize({ page: sheet.page, view: sheet.view, rotate: sheet.rotate, userUnit: sheet.userUnit });
  return (
    <CardFrame
      kind={viewport.region === null ? "Sheet" : "Part of a sheet"}
      name={viewport.name}
      tag={
        ratio === undefined
          ? viewport.registration
            ? "Scale from shared points"
            : "No scale yet"
          : roundedScale(ratio)
      }
    >
      <ScalePart id={id} viewport={viewport} sheet={sheet} />
      <RegistrationPart id={id} viewport={viewport} />
      <KeptGridPart id={id} viewport={viewport} />
      <LineworkPart sheet={viewport.sheet} />
      <LayersPart sheet={viewport.sheet} />
      <CardPart title="Storey">
        <ChoiceRow
          label="AFF tags traced here count from"
          value={viewport.storey}
          placeholder="Not chosen"
          options={Object.entries(storeys).map(([key, { name }]) => ({ id: key, label: `Finished floor of ${name}` }))}
          onChange={(storey) => attempt((job) => setViewport(job, id, { storey }))}
        />
      </CardPart>
      {viewport.region === null && <PartsPart sheet={viewport.sheet} />}
      <CardPart title="Drawing">
        {viewport.region === null ? (
          <TextRow
            label="Title"
            value={sheet.title}
            onCommit={(title) => {
              const named = attempt((job) => setSheetTitle(job, viewport.sheet, title));
              return named.ok ? attempt((job) => setViewport(job, id, { name: title })) : named;
            }}
          />
        ) : (
          <TextRow
            label="Name of the part"
            value={viewport.name}
            onCommit={(name) => attempt((job) => setViewport(job, id, { name }))}
          />
        )}
        {viewport.region !== null && <ActButton id="reshape-part" />}
        <p className="quiet">
          {sheet.file.name}, page {sheet.page}
          <br />
          {paperSize(size, system)}
          {drawing?.is === "missing" ? " · file not at hand" : ""}
        </p>
      </CardPart>
      {viewport.region === null ? (
        <Button
          className="button bare"
          onPress={() => {
            session.select(null);
            session.attempt(removeSheet(session.getState().job, viewport.sheet));
          }}
        >
          Take this sheet out of the job
        </Button>
      ) : (
        <RemovePart id={id} sheet={viewport.sheet} />
      )}
    </CardFrame>
  );
}
