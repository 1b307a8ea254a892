import type { ElementFacts } from "../../job/fields.ts";
import { useSystem } from "../desk-context.ts";
import { FactRow } from "../fields/FactRow.tsx";
import { LengthRow } from "../fields/LengthRow.tsx";
import { CardPart } from "./CardFrame.tsx";

interface FactsPartProps {
  readonly facts: ElementFacts;
  readonly onChange: (facts: ElementFacts) => void;
}

/** What an exception of the rule may ask about an element. What is not recorded withholds a verdict; it never passes. */
export function FactsPart(props: FactsPartProps) {
  return (
    <CardPart title="Facts">
      <div className="rows">
        <FactRows {...props} />
      </div>
    </CardPart>
  );
}

/** The same without a heading. */
export function FactRows({ facts, onChange }: FactsPartProps) {
  const system = useSystem();
  const set = (change: Partial<ElementFacts>) => onChange({ ...facts, ...change });
  return (
    <>
      <FactRow
        label="Fittings and boxes of steel or malleable iron, listed"
        value={facts.steelFittings}
        onChange={(steelFittings) => set({ steelFittings })}
      />
      <FactRow label="Cast in concrete" value={facts.inConcrete} onChange={(inConcrete) => set({ inConcrete })} />
      {facts.inConcrete === true && (
        <LengthRow
          label="Thickness of that concrete"
          value={facts.concreteThickness}
          system={system}
          empty="Not recorded"
          onCommit={(concreteThickness) => set({ concreteThickness })}
        />
      )}
      <FactRow label="Accessible" value={facts.accessible} onChange={(accessible) => set({ accessible })} />
    </>
  );
}
