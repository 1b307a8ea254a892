import { useMemo } from "react";
import { type DeckSurface, deckSurface } from "../../check/deck-surface.ts";
import type { Reading } from "../../check/reading.ts";
import { applyTo } from "../../geometry/similarity.ts";
import type { Area } from "../../job/schema.ts";
import { useSession } from "../desk-context.ts";
import { ReasonsTree } from "../ReasonsTree.tsx";
import { useRegistration } from "../use-registration.ts";
import { CardPart } from "./CardFrame.tsx";

/** The lowest surface of an area's deck with every step of the conversion; undefined while its sheet has no scale. */
export function useSurface(area: Area): Reading<DeckSurface> | undefined {
  const registration = useRegistration(area.viewport);
  const settings = useSession((state) => state.job.settings);
  const storeys = useSession((state) => state.job.storeys);
  const job = useSession((state) => state.job);
  // biome-ignore lint/correctness/useExhaustiveDependencies: only settings and storeys of the job bear on it
  return useMemo(
    () => registration && deckSurface(job, area, (at) => applyTo(registration.sim, at)),
    [settings, storeys, registration, area],
  );
}

/** How the lowest surface follows from the elevation given, step by step, and what is missing for it. */
export function AreaSurfacePart({ area }: { readonly area: Area }) {
  const surface = useSurface(area);
  return (
    <CardPart title="To the lowest surface">
      {surface === undefined ? (
        <p className="quiet">The sheet this area is outlined on has no scale yet.</p>
      ) : (
        <>
          {!surface.known && (
            <ul className="rows">
              {surface.missing.map(({ text }) => (
                <li className="notice" key={text}>
                  Missing: {text}
                </li>
              ))}
            </ul>
          )}
          <ReasonsTree reason={surface.explain()} openTo={2} />
        </>
      )}
    </CardPart>
  );
}
