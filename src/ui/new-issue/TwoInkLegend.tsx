import { BAND, TWO_INKS } from "./draw-two-inks.ts";

const ROWS = [
  { ink: TWO_INKS.oldOnly, words: "Old issue only" },
  { ink: TWO_INKS.newOnly, words: "New issue only" },
  { ink: TWO_INKS.both, words: "Both" },
] as const;

/** What the lines of the two-ink picture mean; `band` where a mark has been chosen. */
export function TwoInkLegend({ band }: { readonly band: boolean }) {
  return (
    <ul className="ink-legend" aria-label="What the lines mean">
      {ROWS.map(({ ink, words }) => (
        <li key={words}>
          <svg width="44" height="12" aria-hidden="true">
            <line
              x1="2"
              x2="42"
              y1="6"
              y2="6"
              stroke={ink.colour}
              strokeWidth={ink.width}
              strokeDasharray={ink.dash.join(" ") || undefined}
            />
          </svg>
          {words}
        </li>
      ))}
      {band && (
        <li>
          <svg width="44" height="12" aria-hidden="true">
            <line x1="6" x2="38" y1="6" y2="6" stroke={BAND.colour} strokeWidth="11" strokeLinecap="round" />
          </svg>
          The mark chosen
        </li>
      )}
    </ul>
  );
}
