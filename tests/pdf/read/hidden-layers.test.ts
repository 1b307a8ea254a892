import { expect, test } from "vitest";
import { withHiddenLayers } from "../../../src/pdf/read/hidden-layers.ts";
import { readLinework } from "../../../src/pdf/read/read-linework.ts";
import { snapTo } from "../../../src/pdf/read/snap-to.ts";
import { sheetUnits } from "../../../src/units/quantity.ts";
import { drawLargeSet, largeSetPages, placeOn, strokeAt } from "./large-set.ts";
import { withPlan } from "./open-bytes.ts";

test("lines of a hidden layer are not snapped to, those of others and of none are", async () => {
  const pages = largeSetPages(7);
  const page = pages[6]!;
  await withPlan(await drawLargeSet(pages), async (plan) => {
    const linework = await readLinework(plan, page.page);
    const lighting = plan.layers.find(({ name }) => name === "Lighting")!.id;
    const hidden = withHiddenLayers(linework, [lighting]);
    // Every eighth stroke lies on the first layer, the next on the second, and so on; the last five on none.
    for (let stroke = 0; stroke < 8; stroke++) {
      const corner = placeOn(page, strokeAt(160 + stroke, page.size)[1]);
      const snap = (on: typeof linework) => snapTo(on, corner, sheetUnits(0.5), ["end"]);
      expect(snap(linework), `stroke ${stroke}`).not.toBeNull();
      if (stroke === 1) expect(snap(hidden)).toBeNull();
      else expect(snap(hidden), `stroke ${stroke}`).not.toBeNull();
    }
    // Shown again nothing is lost.
    const again = withHiddenLayers(hidden, []);
    expect(snapTo(again, placeOn(page, strokeAt(161, page.size)[1]), sheetUnits(0.5), ["end"])).not.toBeNull();
  });
});
