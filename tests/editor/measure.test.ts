import { describe, expect, it } from "vitest";
import { classifyArea, setDeck, setElevation } from "../../src/editor/edits/areas.ts";
import { addRun, setTag } from "../../src/editor/edits/elements.ts";
import { removeScale } from "../../src/editor/edits/scale.ts";
import { setSettings } from "../../src/editor/edits/settings.ts";
import { parseTag } from "../../src/editor/parse-tag.ts";
import type { Job } from "../../src/job/schema.ts";
import { applyChecked } from "../job/apply-checked.ts";
import { AtWork } from "./at-work.ts";
import { EMT, furnished, twoSheets, valueIn } from "./sample-job.ts";

/** The tool in hand on a sheet where 18 units are a foot. */
function atHand(job: Job = furnished(), sheet = "s-ceiling"): AtWork {
  const work = new AtWork(job);
  work.session.setSheet(sheet);
  work.keys("Shift+M");
  expect(work.state.tool.tool).toBe("measure");
  return work;
}

describe("measuring", () => {
  it("tells distances, the sum of them, directions and turns, and records nothing", () => {
    const work = atHand();
    const before = work.text;
    work.click([600, 600]);
    work.pointer("move", [780, 600]);
    expect(work.session.draft()).toContainEqual(expect.objectContaining({ type: "text", text: `10'-0"` }));
    work.click([780, 600]);
    expect(work.state.prompt).toContain(`10'-0"; direction 0°. The next point, or Enter.`);
    work.click([780, 735]);
    expect(work.state.prompt).toContain(
      `7'-6", 17'-6" over 2 pieces; direction 90°, 90° to the left of the piece before.`,
    );
    work.type(`5'-0" turn right 45`);
    expect(work.state.prompt).toContain(
      `5'-0", 22'-6" over 3 pieces; direction 45°, 45° to the right of the piece before.`,
    );
    work.session.finish();
    expect(work.state).toMatchObject({ busy: false, tool: { done: true } });
    expect(work.state.prompt).toContain("The next point measures anew");
    work.keys("Backspace");
    expect(work.state.tool).toMatchObject({ done: false });
    work.session.finish();
    work.click([100, 100]);
    expect(work.state.tool).toMatchObject({ points: [[100, 100]], done: false });
    work.keys("Escape Escape");
    expect(work.state.tool.tool).toBe("edit");
    expect([work.text, work.state.undo]).toEqual([before, []]);
  });

  it("is done by keys alone, in millimetres in a metric job", () => {
    const job = furnished();
    const work = atHand(applyChecked(job, setSettings(job, { system: "metric" })));
    work.type("@600, 600");
    work.keys("ArrowRight");
    work.type("3810");
    expect(work.state.prompt).toContain("3810 mm; direction 0°");
    work.keys("Enter");
    expect(work.state.tool).toMatchObject({ done: true });
  });

  it("tells the area of an outline that is closed on its first point", () => {
    const work = atHand();
    for (const at of [
      [600, 600],
      [780, 600],
      [780, 690],
      [600, 690],
    ] as const)
      work.click(at);
    work.click([602, 601]);
    // 10' by 5'.
    expect(work.state.prompt).toBe(`Area 50.0 sq ft, 30'-0" round. The next point measures anew.`);
    for (const at of [
      [100, 100],
      [200, 200],
      [200, 100],
      [100, 200],
    ] as const)
      work.click(at, { alt: true });
    work.click([100, 100]);
    expect(work.notice).toBe("ring.crosses-itself");
  });

  it("tells what is selected to begin with", () => {
    const work = new AtWork(furnished());
    work.session.select({ table: "areas", id: "a1" });
    work.keys("Shift+M");
    // 400 by 300 units are 22'-2 11/16" by 16'-8", 370.4 sq ft.
    expect(work.state.prompt).toContain(`A-1: 370.4 sq ft, 77'-9 5/16" round.`);
    work.session.setSheet("s-ceiling");
    work.session.select({ table: "elements", id: "r1" });
    expect(work.state.prompt).toContain(`R-1: 13'-10 11/16" in plan.`);
  });

  it("goes by the sheet as it is displayed, and asks for a scale", () => {
    const work = atHand(twoSheets({ rotate: 90 }), "s-roof");
    work.click([600, 600]);
    work.click([600, 780]);
    expect(work.state.prompt).toContain(`10'-0"; direction 0°`);
    const job = furnished();
    const unscaled = atHand(applyChecked(job, removeScale(job, "v-ceiling", "stated")));
    unscaled.click([600, 600]);
    expect(unscaled.notice).toBe("registration.no-scale");
    expect(unscaled.state.busy).toBe(false);
  });

  it("tells the elevations of wiring and its slope, where they are known", () => {
    let job = furnished();
    const tag = (text: string, vertex: number) => {
      job = applyChecked(job, setTag(job, "r1", vertex, valueIn(parseTag(text, job, "v-ceiling"))));
    };
    tag(`EL 112'-0" centre`, 0);
    tag(`EL 113'-0" centre`, 2);
    const work = atHand(job);
    work.click([200, 200]);
    expect(work.state.prompt).toContain(`Here the centre of R-1 is at 112'-0".`);
    work.click([300, 200]);
    // Two fifths of a foot up on 100 of 250 units, 5'-6 11/16".
    expect(work.state.prompt).toContain(
      `The centre of R-1 is at 112'-0", the centre of R-1 is at 112'-4 13/16": rises 4 13/16", 7/8" per foot.`,
    );
    work.click([500, 500]);
    expect(work.state.prompt).toContain(`Where it begins the centre of R-1 is at 112'-4 13/16".`);
  });

  it("tells no elevation where wiring has several, as at a drop", () => {
    let job = furnished();
    const tagged = (text: string) => valueIn(parseTag(text, job, "v-ceiling"));
    const vertices = [
      { at: [600, 600] as const, tag: tagged(`EL 112'-0" centre`) },
      { at: [700, 600] as const, tag: tagged(`EL 112'-0" centre`) },
      { at: [700, 600] as const, tag: tagged(`EL 104'-0" centre`) },
    ];
    job = applyChecked(job, addRun(job, "r2", { viewport: "v-ceiling", wiring: EMT, vertices }));
    const work = atHand(job);
    work.click([600, 600]);
    expect(work.state.prompt).toContain(`Here the centre of R-2 is at 112'-0".`);
    work.click([700, 600]);
    expect(work.state.prompt).toContain(`Where it begins the centre of R-2 is at 112'-0".`);
  });

  it("tells the undersides of decks", () => {
    let job = furnished();
    job = applyChecked(job, classifyArea(job, "a1", { is: "roof" }));
    job = applyChecked(job, setDeck(job, "a1", { profile: "wide-rib-1-1/2" }));
    const shape = {
      is: "slope" as const,
      at: { value: 114, unit: "ft" as const },
      point: [100, 100] as const,
      towards: [100, 400] as const,
      rise: 1 / 48,
      text: `1/4" per foot`,
    };
    job = applyChecked(job, setElevation(job, "a1", { basis: "bottom-of-deck", shape }));
    const work = atHand(job, "s-roof");
    work.click([150, 150], { alt: true });
    work.click([150, 330], { alt: true });
    expect(work.state.prompt).toContain(`falls 2 1/2", 1/4" per foot`);
    work.click([900, 900]);
    expect(work.state.prompt).toContain("Where it begins the underside of A-1");
  });
});
