import { Button } from "react-aria-components";
import type { Area } from "../../job/schema.ts";
import { useSystem } from "../desk-context.ts";
import { LengthRow } from "../fields/LengthRow.tsx";
import type { Reading } from "../fields/TextRow.tsx";
import { TextRow } from "../fields/TextRow.tsx";

type Layers = Area["elevation"]["layers"];

/** Layers with their thicknesses, from above: between the surface whose elevation is given and the top of the deck, unless said otherwise. */
export function AreaLayers({
  layers,
  legend = "Layers above the deck, from above",
  onChange,
}: {
  readonly layers: Layers;
  readonly legend?: string;
  readonly onChange: (layers: Layers) => Reading;
}) {
  const system = useSystem();
  return (
    <fieldset className="layers">
      <legend>{legend}</legend>
      {layers.map((layer, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a layer is known by its place in the assembly
        <div className="layer" key={index}>
          <TextRow
            label={`Layer ${index + 1}`}
            value={layer.name}
            placeholder="Insulation, slab…"
            onCommit={(name) => onChange(layers.with(index, { ...layer, name: name.trim() }))}
          />
          <LengthRow
            label="Thickness"
            value={layer.thickness}
            system={system}
            empty="Not known"
            onCommit={(thickness) => onChange(layers.with(index, { ...layer, thickness }))}
          />
          <Button
            className="button bare small"
            aria-label={`Remove layer ${index + 1}`}
            onPress={() => onChange(layers.toSpliced(index, 1))}
          >
            Remove
          </Button>
        </div>
      ))}
      <Button className="button small" onPress={() => onChange([...layers, { name: "", thickness: null }])}>
        Add a layer
      </Button>
    </fieldset>
  );
}
