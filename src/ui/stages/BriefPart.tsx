import { useState } from "react";
import { Button } from "react-aria-components";
import { BRIEF_LANGUAGES, type BriefLanguage } from "../../issue/brief/brief-languages.ts";
import { CAUTIONS } from "../../issue/words.ts";
import type { Problem } from "../../units/problem.ts";
import { useDesk, useHost, useSession } from "../desk-context.ts";
import type { Choice } from "../fields/ChoiceRow.tsx";
import { PickRow } from "../fields/PickRow.tsx";
import type { Issued } from "../host.ts";
import { Outcome } from "./Outcome.tsx";

const LANGUAGES: readonly Choice<BriefLanguage>[] = [
  { id: "en", label: BRIEF_LANGUAGES.en },
  { id: "es", label: BRIEF_LANGUAGES.es },
];

/** The crew's brief: how high each size may hang under each deck area, as a PDF for those on the lift. */
export function BriefPart({ author }: { readonly author: string }) {
  const { host } = useDesk();
  const busy = useHost((state) => state.busy);
  const none = useSession(({ job }) => Object.keys(job.areas).length === 0);
  const [language, setLanguage] = useState<BriefLanguage>("en");
  const [outcome, setOutcome] = useState<Issued | { readonly problems: readonly Problem[] }>();
  const write = async () => {
    setOutcome(undefined);
    setOutcome(await host.brief(author, language));
  };
  return (
    <section className="block">
      <h3>The crew's brief</h3>
      <p className="quiet">
        How high each size may hang under each deck area, what the supports leave, and where nothing may hang. The drop
        below the deck counts, not the elevation: measure it on site. {CAUTIONS[0]}
      </p>
      <PickRow label="Language" value={language} options={LANGUAGES} onChange={setLanguage} />
      <Button className="button" isDisabled={none || busy !== null} onPress={() => void write()}>
        Write the crew's brief
      </Button>
      {none && <p className="quiet">No deck area is outlined yet: there is nothing to tell.</p>}
      <div role="status">{outcome && <Outcome outcome={outcome} />}</div>
    </section>
  );
}
