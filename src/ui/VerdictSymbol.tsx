import type { Verdict } from "../check/finding.ts";
import { symbolOf } from "../issue/symbols.ts";
import { PictureSvg } from "./PictureSvg.tsx";
import { verdictWords } from "./words.ts";

interface VerdictSymbolProps {
  readonly verdict: Verdict;
  /** CSS length of its side. */
  readonly size?: string;
  /** Left out where the word stands beside it. */
  readonly labelled?: boolean;
}

/** The tip-and-bar symbol of a verdict: the same picture as on the sheet. */
export function VerdictSymbol({ verdict, size = "1.375rem", labelled = false }: VerdictSymbolProps) {
  return (
    <span className="symbol">
      <PictureSvg
        picture={symbolOf(verdict)}
        box={[-0.6, -0.62, 1.2, 1.24]}
        width={size}
        height={size}
        label={labelled ? verdictWords[verdict] : undefined}
      />
    </span>
  );
}
