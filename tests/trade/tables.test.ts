import { describe, expect, it } from "vitest";
import { allTables } from "../../src/trade/all-tables.ts";
import { findBendRadius } from "../../src/trade/bends.ts";
import { boxKinds, findBoxKind } from "../../src/trade/boxes.ts";
import {
  compareConductors,
  conductorDiameter,
  conductorSizes,
  findConductorSize,
  findInsulation,
} from "../../src/trade/conductors.ts";
import { deckProfiles, findDeckProfile } from "../../src/trade/decks.ts";
import { conduitBodies, findConduitBody, findFittingReach, fittingReaches } from "../../src/trade/fittings.ts";
import { findRacewayKind, findRacewaySize, racewayKinds } from "../../src/trade/raceways.ts";
import { findSource, sources } from "../../src/trade/sources.ts";
import { findSupport, supports } from "../../src/trade/supports.ts";

const outside = (kind: string, size: string): number | undefined => findRacewaySize(kind, size)?.outside.value;

describe("outside diameters against published tables", () => {
  // Steel Tube Institute, "Electrical Metallic Tubing", EMT Weights and Dimensions: inches and millimetres, both columns.
  it.each([
    ["1/2", 0.706, 17.9],
    ["3/4", 0.922, 23.4],
    ["1", 1.163, 29.5],
    ["1-1/4", 1.51, 38.4],
    ["1-1/2", 1.74, 44.2],
    ["2", 2.197, 55.8],
    ["2-1/2", 2.875, 73.0],
    ["3", 3.5, 88.9],
    ["3-1/2", 4.0, 101.6],
    ["4", 4.5, 114.3],
  ])("EMT %s is %d in., %d mm", (size, inch, mm) => {
    expect(outside("emt", size)).toBe(inch);
    // The millimetre column is rounded to a tenth, which is what gives misprints away.
    expect(Math.abs(outside("emt", size)! * 25.4 - mm)).toBeLessThanOrEqual(0.051);
  });

  // UL dimensions of rigid and intermediate metal conduit as a fitting maker's catalogue prints them: RMC nominal, IMC least and most.
  it.each([
    ["1/2", 0.84, 0.81, 0.82],
    ["3/4", 1.05, 1.024, 1.034],
    ["1", 1.315, 1.285, 1.295],
    ["1-1/4", 1.66, 1.63, 1.645],
    ["1-1/2", 1.9, 1.875, 1.89],
    ["2", 2.375, 2.352, 2.367],
    ["2-1/2", 2.875, 2.847, 2.867],
    ["3", 3.5, 3.466, 3.486],
    ["3-1/2", 4.0, 3.961, 3.981],
    ["4", 4.5, 4.456, 4.476],
  ])("RMC %s is %d in.; IMC lies between %d and %d in.", (size, rigid, least, most) => {
    expect(outside("rmc", size)).toBe(rigid);
    expect(outside("pvc40", size)).toBe(rigid);
    expect(outside("pvc80", size)).toBe(rigid);
    expect(outside("imc", size)).toBeGreaterThanOrEqual(least);
    expect(outside("imc", size)).toBeLessThanOrEqual(most);
  });

  // Steel Tube Institute, "Intermediate Metal Conduit (IMC)", and a support maker's catalogue (nominal outside diameters).
  it.each([
    ["1/2", 0.815],
    ["3/4", 1.029],
    ["1", 1.29],
    ["1-1/4", 1.638],
    ["1-1/2", 1.883],
    ["2", 2.36],
    ["2-1/2", 2.857],
    ["3", 3.476],
    ["3-1/2", 3.971],
    ["4", 4.466],
  ])("IMC %s is %d in.", (size, inch) => expect(outside("imc", size)).toBe(inch));

  it("does not repeat the known misprints", () => {
    expect(outside("emt", "3/4")).not.toBe(0.992);
    expect(outside("emt", "1-1/4")).not.toBe(1.503);
    expect(outside("rmc", "4")).not.toBe(1.5);
  });

  it("grows with the trade size in every kind of raceway, and never shrinks in a cable", () => {
    for (const kind of racewayKinds) {
      const values = kind.sizes.map((row) => row.outside.value);
      for (let i = 1; i < values.length; i++) {
        if (kind.elementClass === "raceway") expect(values[i], `${kind.id} ${i}`).toBeGreaterThan(values[i - 1]!);
        else expect(values[i], `${kind.id} ${i}`).toBeGreaterThanOrEqual(values[i - 1]!);
      }
    }
  });

  it("has no row between the rows, and none of another kind", () => {
    expect(findRacewaySize("emt", "0.75")).toBeUndefined();
    expect(findRacewaySize("emt", "5")).toBeUndefined();
    expect(findRacewaySize("nothing", "1/2")).toBeUndefined();
    expect(findRacewayKind("toString")).toBeUndefined();
  });
});

describe("bends, couplings and wireways", () => {
  // NFPA 70, chapter 9, table 2, one-shot and full-shoe benders, from memory: six times the trade size and more above 1-1/4.
  it.each([
    ["1/2", 4],
    ["3/4", 4.5],
    ["1", 5.75],
    ["1-1/4", 7.25],
    ["1-1/2", 8.25],
    ["2", 9.5],
    ["2-1/2", 10.5],
    ["3", 13],
    ["3-1/2", 15],
    ["4", 16],
  ])("a bend of trade size %s has a radius of %d in.", (size, radius) => {
    const row = findBendRadius(size);
    expect(row?.radius).toMatchObject({ value: radius, source: "from-memory" });
    expect(row?.radius.note).toMatch(/from memory/);
  });

  it("has a coupling for every size of rigid tubing, thicker than the tube, and never one thinner", () => {
    for (const id of ["emt", "rmc", "imc", "pvc40", "pvc80", "fmc", "lfmc"]) {
      const reaches = findRacewayKind(id)!.sizes.map(({ size, outside: tube }) => {
        const reach = findFittingReach(id, size);
        expect(reach?.outside.value, `${id} ${size}`).toBeGreaterThan(tube.value);
        return reach!.outside.value;
      });
      expect(reaches).toEqual(reaches.toSorted((a, b) => a - b));
    }
  });

  it("tells rectangular sections by their width, and types that hang lower between their supports", () => {
    expect(findRacewaySize("wireway", "6x6")).toMatchObject({ outside: { value: 6 }, width: { value: 6 } });
    const flexible = racewayKinds.filter((kind) => kind.flexible).map(({ id }) => id);
    expect(flexible).toEqual(["fmc", "lfmc", "lfnc", "ent", "mc", "ac", "nm"]);
    expect(racewayKinds.filter(({ sizes }) => sizes.some(({ width }) => width)).map(({ id }) => id)).toEqual([
      "wireway",
    ]);
  });
});

describe("conductors", () => {
  // Handbook diameters of bare solid wire to four figures, as the usual AWG tables print them (ASTM B258).
  it.each([
    ["4/0", 0.46],
    ["3/0", 0.4096],
    ["2/0", 0.3648],
    ["1/0", 0.3249],
    ["1", 0.2893],
    ["2", 0.2576],
    ["3", 0.2294],
    ["4", 0.2043],
    ["6", 0.162],
    ["8", 0.1285],
    ["10", 0.1019],
    ["12", 0.0808],
    ["14", 0.0641],
    ["16", 0.0508],
    ["18", 0.0403],
  ])("%s AWG is %d in. across", (size, inch) => expect(conductorDiameter(size)).toBeCloseTo(inch, 4));

  it("has no gauge diameter for thousands of circular mils", () => {
    expect(conductorDiameter("250 kcmil")).toBeUndefined();
    expect(conductorDiameter("five")).toBeUndefined();
  });

  it("orders sizes as wires grow: 4/0 is not 4", () => {
    expect(compareConductors("4/0", "4")).toBeGreaterThan(0);
    expect(compareConductors("6", "4")).toBeLessThan(0);
    expect(compareConductors("8", "6")).toBeLessThan(0);
    expect(compareConductors("3", "4")).toBeGreaterThan(0);
    expect(compareConductors("250", "4/0")).toBeGreaterThan(0);
    expect(compareConductors("#4 AWG", "4")).toBe(0);
    expect(compareConductors("4", "5.5")).toBeUndefined();
    const gauges = conductorSizes.map(conductorDiameter).filter((d) => d !== undefined);
    expect(gauges).toEqual([...gauges].sort((a, b) => a - b));
    expect(gauges).toHaveLength(conductorSizes.indexOf("4/0") + 1);
  });

  it.each([
    ["#4", "4"],
    ["No. 4 AWG", "4"],
    ["0000", "4/0"],
    ["0", "1/0"],
    ["4 / 0", "4/0"],
    ["250 kcmil", "250"],
    ["500 MCM", "500"],
    ["12awg", "12"],
    ["00000", undefined],
    ["4/1", undefined],
    ["", undefined],
  ])("reads %s as %s", (text, size) => expect(findConductorSize(text)).toBe(size));

  it("rates insulations (from memory)", () => {
    expect(findInsulation("TW")?.ratingC).toEqual({ value: 60, source: "from-memory" });
    expect(findInsulation("THWN")?.ratingC.value).toBe(75);
    expect(findInsulation("THWN-2")?.ratingC.value).toBe(90);
    expect(findInsulation("THHN")?.ratingC.value).toBe(90);
    expect(findInsulation("thhn")).toBeUndefined();
  });
});

describe("supports (channel sizes from memory)", () => {
  it("tell which leaves 1 1/2 in.: the deep channel does, the shallow one and a tight strap do not", () => {
    expect(supports.filter((support) => support.leaves.value >= 1.5).map((support) => support.id)).toEqual([
      "deep-strut",
    ]);
    expect(findSupport("shallow-strut")?.leaves.value).toBe(13 / 16);
    expect(findSupport("deep-strut")?.leaves.value).toBe(1 + 5 / 8);
    expect(findSupport("strapped-tight")?.leaves.value).toBe(0);
  });
});

describe("fittings", () => {
  it("reach beyond the tube they join, every one", () => {
    for (const row of fittingReaches) {
      const tube = outside(row.kind, row.size);
      expect(tube, `${row.kind} ${row.size}`).toBeDefined();
      expect(row.outside.value, `${row.kind} ${row.size}`).toBeGreaterThan(tube!);
    }
    for (const row of conduitBodies) expect(row.depth.value, row.size).toBeGreaterThan(outside("rmc", row.size)!);
    expect(findFittingReach("emt", "3/4")?.outside.value).toBeGreaterThan(0.922);
    expect(findFittingReach("emt", "9")).toBeUndefined();
    expect(findConduitBody("9")).toBeUndefined();
  });
});

describe("every table", () => {
  it("names its rows once", () => {
    const once = (ids: readonly string[]) => expect(ids).toEqual([...new Set(ids)]);
    once(sources.map((row) => row.id));
    once(racewayKinds.map((row) => row.id));
    for (const kind of racewayKinds) once(kind.sizes.map((row) => row.size));
    once(boxKinds.map((row) => row.id));
    once(deckProfiles.map((row) => row.id));
    once(supports.map((row) => row.id));
    once(fittingReaches.map((row) => `${row.kind} ${row.size}`));
    once(allTables().map((table) => table.name));
  });

  it("has a cell for each column, a unit and a listed source for each number, and no negative length", () => {
    for (const table of allTables()) {
      expect(table.rows.length, table.name).toBeGreaterThan(0);
      for (const row of table.rows) {
        expect(row, table.name).toHaveLength(table.columns.length);
        for (const cell of row) {
          if (typeof cell.value !== "number") continue;
          expect(cell.unit, table.name).not.toBe("");
          expect(findSource(cell.source ?? ""), `${table.name} ${row[0]?.value}`).toBeDefined();
          expect(cell.value).toBeGreaterThanOrEqual(0);
        }
      }
    }
  });

  it("uses every source it lists, in a table or a rule set, and says for each what was checked", () => {
    for (const source of sources) expect(source.checked.length, source.id).toBeGreaterThan(10);
    const used = new Set(allTables().flatMap((table) => table.rows.flat().map((cell) => cell.source)));
    const elsewhere = ["nist-sp-811", "nfpa-70-2008-2020", "nfpa-70-2023", "nfpa-70-2026"];
    expect(sources.map((source) => source.id).filter((id) => !used.has(id) && !elsewhere.includes(id))).toEqual([]);
  });

  it("marks what varies by maker as a default from memory", () => {
    for (const kind of racewayKinds.filter((row) => row.variesByMaker))
      for (const row of kind.sizes) {
        expect(row.outside.source, `${kind.id} ${row.size}`).toBe("from-memory");
        expect(row.outside.note).toContain("maker");
      }
  });

  it("finds decks and boxes by id", () => {
    expect(findDeckProfile("wide-rib-1-1/2")).toMatchObject({ material: "metal-corrugated", depth: { value: 1.5 } });
    expect(findDeckProfile("deep-rib-3")).toMatchObject({ depth: { value: 3 }, pitch: { value: 8 } });
    expect(findDeckProfile("wood")?.depth).toBeUndefined();
    expect(findBoxKind("4sq-2-1/8")?.depth.value).toBe(2.125);
    expect(findBoxKind("4-11/16sq-1-1/2")?.width.value).toBe(4.6875);
    expect(findBoxKind("")).toBeUndefined();
  });
});
