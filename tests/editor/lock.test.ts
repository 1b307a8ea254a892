import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { act } from "../../src/editor/acts.ts";
import { registerViewport } from "../../src/editor/edits/registration.ts";
import { LOCK_AXES, LOCK_STEPS, type Lock, lockedPlace, nextAxes, nextStep, UNLOCKED } from "../../src/editor/lock.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import { radians } from "../../src/units/quantity.ts";
import { evenly } from "../geometry/evenly.ts";
import { applyChecked } from "../job/apply-checked.ts";
import { AtWork } from "./at-work.ts";
import { furnished } from "./sample-job.ts";

const point = fc.tuple(evenly(0, 1500), evenly(0, 1200));
/** Degrees from one direction to another, between -180 and 180. */
const degrees = ([ax, ay]: Point2, [bx, by]: Point2): number =>
  (Math.atan2(ax * by - ay * bx, ax * bx + ay * by) * 180) / Math.PI;

describe("locked directions", () => {
  it("give exactly the angles that are asked for, whatever the pointer does", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...LOCK_STEPS),
        fc.constantFrom(...LOCK_AXES),
        point,
        point,
        point,
        evenly(-3, 3),
        fc.option(point),
        (step, from, before, last, at, turn, attracts) => {
          fc.pre(Math.hypot(before[0] - last[0], before[1] - last[1]) > 1);
          const lock: Lock = { on: true, step, from };
          const field = { points: [before, last], building: radians(turn) };
          const place = lockedPlace(at, lock, field, attracts === null ? undefined : { at: attracts }).at;
          const way: Point2 = [place[0] - last[0], place[1] - last[1]];
          if (Math.hypot(...way) < 1e-3) return;
          const axes: Point2 =
            from === "sheet"
              ? [1, 0]
              : from === "building"
                ? [Math.cos(-turn), Math.sin(-turn)]
                : [last[0] - before[0], last[1] - before[1]];
          const off = degrees(axes, way) / step;
          expect(Math.abs(off - Math.round(off))).toBeLessThan(1e-6);
          // The nearest of the allowed directions, not any of them.
          expect(Math.abs(degrees([at[0] - last[0], at[1] - last[1]], way))).toBeLessThanOrEqual(step / 2 + 1e-6);
        },
      ),
    );
  });

  it("keep what is square to the page square to the bit", () => {
    fc.assert(
      fc.property(point, point, (last, at) => {
        const place = lockedPlace(at, { ...UNLOCKED, on: true }, { points: [last], building: radians(0) }).at;
        expect(place[0] === last[0] || place[1] === last[1]).toBe(true);
      }),
    );
  });

  it("end where a vertex says, level with it, and on a line where they cross it", () => {
    const work = new AtWork(furnished());
    work.session.setSheet("s-ceiling");
    work.session.start({ tool: "trace-run" });
    work.keys("z");
    work.click([100, 500]);
    // The corner of R-1 at [300, 200] is nowhere near the page's right angle from here: it says how far, not which way.
    work.pointer("move", [303, 203]);
    expect(work.state.aim).toEqual({
      at: [100, 200],
      why: "Locked to right angles, in line with: Vertex of R-1",
    });
    work.click([100, 250]);
    work.pointer("move", [297, 252]);
    expect(work.state.aim).toEqual({ at: [300, 250], why: "Locked to right angles, in line with: On R-1" });
    // Alt keeps the direction and lets nothing attract.
    work.pointer("move", [297, 252], { alt: true });
    expect(work.state.aim).toEqual({ at: [297, 250], why: "Locked to right angles" });
  });

  it("are turned on, stepped and counted from elsewhere by keys in the middle of a line, and the prompt says so", () => {
    const work = new AtWork(furnished());
    work.session.setSheet("s-ceiling");
    work.session.start({ tool: "trace-run" });
    work.click([500, 500]);
    work.click([600, 600]);
    expect(work.state.prompt).not.toContain("Locked");
    work.pointer("move", [700, 590]);
    work.keys("z");
    expect(work.state.prompt).toContain("Locked to right angles from the page");
    // What is aimed at follows without a move of the pointer.
    expect(work.state.aim?.at).toEqual([700, 600]);
    work.keys("j j");
    expect(work.state.prompt).toContain("from the last piece");
    const [x, y] = work.state.aim!.at;
    expect(x - 600).toBeCloseTo(600 - y, 9);
    work.keys("Shift+Z");
    expect(work.state.lock).toEqual({ on: true, step: 45, from: "piece" });
    expect(act("lock-step").name).toContain("45°");
    work.keys("z");
    expect(work.state.aim).toEqual({ at: [700, 590], why: null });
    expect([nextStep(UNLOCKED).step, nextAxes(UNLOCKED).from]).toEqual([90, "sheet"]);
  });

  it("leave the corners of a part alone, since it has two opposite ones", () => {
    const work = new AtWork(furnished());
    work.session.start({ tool: "mark-viewport" });
    work.keys("z");
    work.click([900, 900]);
    work.pointer("move", [1000, 1000]);
    expect(work.state.aim?.at).toEqual([1000, 1000]);
  });

  it("can be counted from the building, where its plan lies turned on the sheet", () => {
    const job = furnished();
    // The ceiling plan lies turned by the angle whose tangent is 3/4 against the roof plan.
    const turned = applyChecked(
      job,
      registerViewport(job, "v-ceiling", "v-roof", [
        { label: "A/1", here: [500, 500], there: [500, 500] },
        { label: "B/1", here: [900, 800], there: [1000, 500] },
      ]),
    );
    const work = new AtWork(turned);
    work.session.setSheet("s-ceiling");
    work.session.start({ tool: "trace-run" });
    work.keys("z j");
    expect(work.state.lock.from).toBe("building");
    work.click([600, 600]);
    work.pointer("move", [690, 640], { alt: true });
    const [x, y] = work.state.aim!.at;
    expect((y - 600) / (x - 600)).toBeCloseTo(0.75, 9);
  });
});
