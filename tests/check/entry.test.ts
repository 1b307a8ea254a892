import { describe, expect, it } from "vitest";
import { createChecker } from "../../src/check/check-job.ts";
import type { Finding, Reason } from "../../src/check/finding.ts";
import type { Element } from "../../src/job/elements/element.ts";
import type { Entry } from "../../src/job/elements/entry.ts";
import { parseJob } from "../../src/job/parse-job.ts";
import type { EntryExample, RuleSet } from "../../src/rules/rule-set.ts";
import { ruleSets } from "../../src/rules/rule-sets.ts";
import { conductorSizes } from "../../src/trade/conductors.ts";
import { box, check, inchJob, roof, run, tag, withParts } from "./inch-job.ts";

/** 4/0 AWG THWN-2 through a 105 C bushing with a locknut, put in before pulling; what a test says differently. */
const entry = (more: Partial<Entry> = {}): Entry => ({
  kind: "entry",
  label: "E-1",
  viewport: "v1",
  at: [100, 0],
  run: "r1",
  enclosure: { is: "box", box: "b1" },
  conductor: "4/0",
  insulation: "THWN-2",
  protection: { is: "method", method: "insulating-fitting", ratingC: 105 },
  fastened: true,
  beforePulling: true,
  ...more,
});
const bushing = (ratingC: number | null): Entry["protection"] => ({
  is: "method",
  method: "insulating-fitting",
  ratingC,
});
const method = (name: string, ratingC: number | null = null): Entry["protection"] => ({
  is: "method",
  method: name,
  ratingC,
});

const raceway = (type = "emt") =>
  run(
    [
      [0, 0, 100],
      [100, 0, 100],
    ],
    { label: "R-1", wiring: { type, tradeSize: type === "mc" ? "12/2" : "2", outsideDiameter: null } },
  );
const parts = (e: Entry, type?: string): Record<string, Element> => ({
  r1: raceway(type),
  b1: box(103, 0, tag(100)),
  e1: e,
});

function judged(e: Entry, edition = "us-2023", type?: string): Finding {
  const { findings } = check({ a1: roof(200) }, parts(e, type), inchJob(edition));
  const own = findings.filter((finding) => finding.elementId === "e1");
  expect(own).toHaveLength(1);
  return own[0]!;
}
const verdict = (e: Entry, edition?: string, type?: string) => judged(e, edition, type).verdict;
const all = ({ text, value = "", source = "", children }: Reason): string =>
  [text, value, source, ...children.map(all)].join("\n");
const words = (finding: Finding): string => all(finding.reasons);

describe.each(ruleSets.flatMap((set) => (set.entry ? [[set.id, set, set.entry.examples] as const] : [])))(
  "the entry examples of %s",
  (id, set: RuleSet, examples: readonly EntryExample[]) => {
    it.each(examples.map((example) => [example.says, example] as const))("%s", (_, example) => {
      const { protection } = example;
      if (protection !== undefined && protection !== "none")
        expect(set.entry!.protections.map((one) => one.id)).toContain(protection);
      const given = entry({
        conductor: example.conductor,
        insulation: example.insulation ?? null,
        protection:
          protection === undefined
            ? { is: "not-recorded" }
            : protection === "none"
              ? { is: "none" }
              : method(protection, example.ratingC ?? null),
        fastened: example.fastened ?? null,
        beforePulling: example.beforePulling ?? null,
      });
      expect(verdict(given, id, example.wiring)).toBe(example.expect);
    });

    it("are of every verdict an entry can have", () => {
      expect(new Set(examples.map((example) => example.expect))).toEqual(
        new Set(["clear", "entry-unprotected", "not-governed", "cannot-tell"]),
      );
    });
  },
);

// The rule as 300.4(G) (2023) and 300.6(G) (2026) of NFPA 70 state it, paraphrased.
describe("an entry", () => {
  it("is protected by each of the four ways", () => {
    for (const edition of ["us-2023", "us-2026"]) {
      expect(verdict(entry(), edition)).toBe("clear");
      expect(verdict(entry({ protection: method("listed-metal-fitting") }), edition)).toBe("clear");
      expect(verdict(entry({ protection: method("secured-insulation", 90) }), edition)).toBe("clear");
      expect(verdict(entry({ protection: method("integral-hub"), fastened: null }), edition)).toBe("clear");
    }
  });

  it("is unprotected with nothing, whatever else is not recorded, and lists the ways", () => {
    const found = judged(entry({ protection: { is: "none" }, insulation: null, fastened: null, beforePulling: null }));
    expect(found.verdict).toBe("entry-unprotected");
    expect(found).toMatchObject({
      section: "300.4(G)",
      edition: "2023",
      requiredIn: 0,
      leastIn: null,
      sheet: "s1",
      at: [100, 0],
      areas: [],
      stretches: [],
    });
    expect(found.number).not.toBeNull();
    expect(found.remedies.map(({ kind }) => kind)).toEqual(["protect"]);
    for (const way of ["insulating bushing", "listed metal fitting", "insulating material secured", "threaded hub"])
      expect(found.remedies[0]!.text).toContain(way);
    expect(judged(entry({ protection: { is: "none" } }), "us-2026").section).toBe("300.6(G)");
  });

  it("stays unprotected by what is known, while other facts are not recorded", () => {
    const found = judged(entry({ protection: bushing(75), fastened: null, beforePulling: null }));
    expect(found.verdict).toBe("entry-unprotected");
    expect(found.remedies.map(({ kind }) => kind)).toEqual(["protect", "record-fact", "record-fact"]);
  });

  it("compares the ratings: not lower, so that equal passes", () => {
    const rated = (ratingC: number | null, insulation: string | null) =>
      verdict(entry({ protection: bushing(ratingC), insulation }));
    expect(rated(105, "THHN")).toBe("clear");
    expect(rated(90, "THHN")).toBe("clear");
    expect(rated(89.9, "THHN")).toBe("entry-unprotected");
    expect(rated(75, "THHN")).toBe("entry-unprotected");
    expect(rated(60, "THHN")).toBe("entry-unprotected");
    expect(rated(75, "THW")).toBe("clear");
    expect(rated(60, "TW")).toBe("clear");
    expect(rated(null, "THHN")).toBe("cannot-tell");
    expect(rated(105, null)).toBe("cannot-tell");
    expect(rated(105, "XYZ")).toBe("cannot-tell");
    // The table has XHHW in wet places only; dry it may be higher, so that 75 passes nowhere.
    expect(rated(60, "XHHW")).toBe("entry-unprotected");
    expect(rated(75, "XHHW")).toBe("cannot-tell");
    const found = judged(entry({ protection: bushing(75) }));
    expect(words(found)).toMatch(/rated 75 °C, lower than the insulation's 90 °C/);
    expect(found.remedies.map(({ text }) => text).join()).toMatch(/rated 90 °C or higher/);
  });

  it("takes no bushing for the fastening", () => {
    const broken = judged(entry({ fastened: false }));
    expect(broken.verdict).toBe("entry-unprotected");
    expect(broken.remedies.map(({ text }) => text).join()).toMatch(/locknut/);
    expect(verdict(entry({ fastened: null }))).toBe("cannot-tell");
    expect(verdict(entry({ fastened: false }), "us-2026")).toBe("entry-unprotected");
    // A recorded "no" is never a pass, not even where the way itself fastens.
    expect(verdict(entry({ protection: method("integral-hub"), fastened: false }))).toBe("cannot-tell");
    expect(verdict(entry({ protection: method("secured-insulation", 90), fastened: false }))).toBe("entry-unprotected");
  });

  it("does not exempt plastic raceways, and reaches no cables", () => {
    for (const type of ["pvc40", "pvc80", "ent", "lfnc"])
      expect(verdict(entry({ protection: { is: "none" } }), "us-2023", type), type).toBe("entry-unprotected");
    for (const type of ["mc", "ac", "nm"])
      expect(verdict(entry({ protection: { is: "none" } }), "us-2023", type), type).toBe("not-governed");
  });

  it("is governed from 4 AWG up, in the order of sizes", () => {
    const governed = conductorSizes.filter(
      (conductor) => verdict(entry({ conductor, protection: { is: "none" } })) === "entry-unprotected",
    );
    expect(governed.slice(0, 9)).toEqual(["4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0", "250"]);
    expect(governed.at(-1)).toBe("2000");
    for (const small of ["6", "8", "14"])
      expect(verdict(entry({ conductor: small, protection: { is: "none" } }))).toBe("not-governed");
    expect(judged(entry({ conductor: "6" })).number).toBeNull();
    expect(verdict(entry({ conductor: null, protection: { is: "none" } }))).toBe("cannot-tell");
    expect(verdict(entry({ conductor: "42" }))).toBe("cannot-tell");
  });

  it("asks for the protection before pulling in 2023, and not in 2026", () => {
    const late = entry({ beforePulling: false });
    const silent = entry({ beforePulling: null });
    expect([verdict(late), verdict(silent)]).toEqual(["entry-unprotected", "cannot-tell"]);
    expect([verdict(late, "us-2026"), verdict(silent, "us-2026")]).toEqual(["clear", "clear"]);
  });

  it("cannot be told under an edition whose entry rule is not written down, whatever is recorded", () => {
    for (const set of ruleSets.filter((one) => !one.entry)) {
      for (const e of [entry(), entry({ conductor: "14" }), entry({ protection: { is: "none" } })]) {
        const found = judged(e, set.id);
        expect(found.verdict, set.id).toBe("cannot-tell");
        expect(found.reasons.text).toContain(`entries of the ${set.edition} edition`);
        expect(found.remedies[0]!.text).toMatch(/2023 or 2026/);
      }
    }
    expect(verdict(entry(), "us-1999")).toBe("cannot-tell");
  });

  it("names every missing fact, each with what to record", () => {
    const found = judged(entry({ conductor: null, protection: { is: "not-recorded" } }));
    expect(found.verdict).toBe("cannot-tell");
    expect(found.reasons.text).toMatch(/size of its largest conductor.*how its conductors are protected/);
    expect(found.remedies).toHaveLength(2);
    const half = judged(entry({ protection: bushing(null), insulation: null, fastened: null, beforePulling: null }));
    expect(half.remedies.map(({ kind }) => kind)).toEqual(Array(4).fill("record-fact"));
    expect(verdict(entry({ protection: method("glue") }))).toBe("cannot-tell");
  });

  it("gives its reasons down to every value, with sources", () => {
    const text = words(judged(entry()));
    for (const said of [
      "4/0 AWG is larger than 4 AWG",
      "THWN-2, 90 °C",
      "105 °C",
      "insulating bushing",
      "R-1, 2 EMT",
      "B-1",
      "recorded for E-1",
      "NFPA 70",
      "Plastic raceways are not exempt.",
    ])
      expect(text).toContain(said);
  });

  it("needs neither run nor deck, but says that the run is not recorded", () => {
    const alone = entry({ run: null, enclosure: { is: "words", words: "panel LP-2" } });
    const { findings } = check({}, { e1: alone });
    expect(findings.map((finding) => finding.verdict)).toEqual(["clear"]);
    expect(words(findings[0]!)).toMatch(/Which run enters here is not recorded/);
    expect(words(findings[0]!)).toContain("panel LP-2");
  });

  it("must name elements of its job", () => {
    const job = withParts(inchJob(), {}, parts(entry()));
    const without = (id: string) => {
      const { [id]: _, ...elements } = job.elements;
      const parsed = parseJob(JSON.parse(JSON.stringify({ ...job, elements })));
      return parsed.ok ? [] : parsed.problems.map(({ code, where }) => `${code} ${where}`);
    };
    expect(without("r1")).toEqual(["job.no-such-element elements/e1/run"]);
    expect(without("b1")).toEqual(["job.no-such-element elements/e1/enclosure/box"]);
  });

  it("is checked again when what it names changes, on whatever sheet", () => {
    const checker = createChecker();
    const job = withParts(inchJob(), {}, parts(entry({ protection: { is: "none" } })));
    const of = (next: typeof job) => checker(next).findings.find(({ elementId }) => elementId === "e1")!;
    expect(of(job).verdict).toBe("entry-unprotected");
    expect(of({ ...job, elements: { ...job.elements, r1: raceway("mc") } }).verdict).toBe("not-governed");
    const renamed = { ...box(103, 0, tag(100)), label: "LP-7" };
    expect(words(of({ ...job, elements: { ...job.elements, b1: renamed } }))).toContain("LP-7");
  });
});
