import { expect, test } from "vitest";
import type { ScreenMark } from "../../src/canvas/screen-mark.ts";
import type { CheckResult, Finding, Verdict } from "../../src/check/finding.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import { INK } from "../../src/issue/inks.ts";
import { sheetFrame } from "../../src/issue/sheet-frame.ts";
import { gathered } from "../../src/ui/gathered.ts";

const FRAME = sheetFrame({ view: [0, 0, 3024, 2160], rotate: 0, userUnit: 1 });

/** Findings strewn over a sheet, one of them of another verdict, and their marks. */
const strewn = (count: number, odd?: { readonly index: number; readonly verdict: Verdict }) => {
  const findings = Array.from({ length: count }, (_, i) => {
    const at: Point2 = [(i * 7919) % 3024, (i * 104_729) % 2160];
    return { elementId: `r${i}`, verdict: i === odd?.index ? odd.verdict : "borderline", at } as Finding;
  });
  const marks = findings.map(({ elementId, verdict, at }): ScreenMark => {
    return { key: `finding:${elementId}:${verdict}`, picture: [], hit: { kind: "spot", at, radius: 8 } };
  });
  return { marks, result: { findings } as unknown as CheckResult };
};

/** How many findings a mark stands for: the number on it, or itself. */
const counted = ({ picture }: ScreenMark): number => {
  const text = picture.find((item) => item.type === "text");
  return text?.type === "text" ? Number(text.text) : 1;
};

test("every finding of a crowded sheet is counted in one mark, and there are few marks", () => {
  const { marks, result } = strewn(5000);
  const shown = gathered(marks, result, 2.75, FRAME, []);
  expect(shown.reduce((sum, mark) => sum + counted(mark), 0)).toBe(5000);
  expect(shown.length).toBeLessThan(300);
});

test("a group says the worst of its findings, and is it to the pointer", () => {
  const { marks, result } = strewn(5000, { index: 777, verdict: "too-close" });
  const group = gathered(marks, result, 2.75, FRAME, []).find(({ key }) => key === "finding:r777:too-close")!;
  expect(counted(group)).toBeGreaterThan(2);
  const text = group.picture.find((item) => item.type === "text");
  expect(text?.fill).toEqual(INK);
});

test("a finding kept apart keeps its own mark, over the groups, and no group counts it", () => {
  const { marks, result } = strewn(1000);
  const shown = gathered(marks, result, 2, FRAME, [marks[5]!.key]);
  expect(shown.at(-1)).toBe(marks[5]);
  expect(shown.reduce((sum, mark) => sum + counted(mark), 0)).toBe(1000);
});

test("groups whose findings are the same marks as before are the same marks", () => {
  const { marks, result } = strewn(1000);
  const before = gathered(marks, result, 2, FRAME, []);
  const after = gathered(marks, result, 2, FRAME, [marks[5]!.key]);
  const changed = after.filter((mark) => !before.includes(mark));
  expect(changed.length).toBeLessThanOrEqual(4);
  expect(changed).toContain(marks[5]);
});

test("what is not crowded, not checked or seen close by stays as it is", () => {
  const few = strewn(200);
  expect(gathered(few.marks, few.result, 2, FRAME, [])).toBe(few.marks);
  const many = strewn(1000);
  expect(gathered(many.marks, many.result, 1, FRAME, [])).toBe(many.marks);
  expect(gathered(many.marks, null, 2, FRAME, [])).toBe(many.marks);
});
