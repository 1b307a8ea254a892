import { CAUTIONS } from "../issue/words.ts";

/** The cautions in full, where results are read and issued. */
export function Cautions() {
  return (
    <section className="cautions" aria-label="Cautions">
      {CAUTIONS.map((caution) => (
        <p key={caution}>{caution}</p>
      ))}
    </section>
  );
}
