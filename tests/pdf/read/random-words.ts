/** What a tag says, as a person reads it. */
export interface WrittenTag {
  readonly text: string;
  readonly inches: number;
  readonly basis: "bottom" | "centre" | "top" | null;
  readonly surface: string | null;
  readonly from: "floor" | "deck" | null;
  readonly existing: boolean;
  readonly approximate: boolean;
}

/** What a note says of a raceway or cable, as a person reads it. */
export interface WrittenRun {
  readonly text: string;
  readonly size: string | null;
  readonly type: string | null;
  /** "2 #10", or "1 #10 ground". */
  readonly conductors: readonly string[];
}

/** A scale note and what it says: building per paper, or what stands instead. */
export interface WrittenScale {
  readonly text: string;
  readonly ratio: number | null;
  readonly kind: "scale" | "as-noted" | "not-to-scale";
}

/** Slope as rise over run. */
export interface WrittenSlope {
  readonly text: string;
  readonly rise: number;
}

/** A seeded choice of words. All wordings are common practice, no source; their meaning is worked out beside each. */
export class RandomWords {
  constructor(private readonly random: () => number) {}
  between(low: number, high: number): number {
    return low + (high - low) * this.random();
  }
  whole(low: number, high: number): number {
    return Math.floor(this.between(low, high + 1));
  }
  oneOf<T>(list: readonly T[]): T {
    return list[this.whole(0, list.length - 1)]!;
  }

  /** Feet and inches in one of the ways the trade writes them, with their inches. */
  private feetInches(low: number, high: number): readonly [text: string, inches: number] {
    const [feet, inches] = [this.whole(low, high), this.whole(0, 11)];
    const [fraction, part] = this.oneOf([
      ["", 0],
      ["", 0],
      [" 1/2", 0.5],
      [" 1/4", 0.25],
      [" 7/8", 0.875],
      ["\u00bd", 0.5],
    ] as const);
    const [foot, inch] = this.oneOf([
      ["'", '"'],
      ["'", '"'],
      ["\u2019", "\u201d"],
    ] as const);
    const dash = this.oneOf(["-", "-", " - "]);
    return [`${feet}${foot}${dash}${inches}${fraction}${inch}`, 12 * feet + inches + part];
  }

  tag(): WrittenTag {
    const [length, inches] = this.feetInches(8, 120);
    const plain = { inches, basis: null, surface: null, from: null, existing: false, approximate: false } as const;
    const metres = this.whole(2500, 18000);
    const below = this.whole(2, 18);
    return this.oneOf<WrittenTag>([
      { ...plain, text: `EL. ${length}` },
      { ...plain, text: `ELEV. ${length}` },
      { ...plain, text: `EL = ${length}` },
      { ...plain, text: `+${length}` },
      { ...plain, text: `T.O.S. ${length}`, basis: "top", surface: "steel" },
      { ...plain, text: `T.O. STEEL EL. ${length}`, basis: "top", surface: "steel" },
      { ...plain, text: `T/STEEL ${length}`, basis: "top", surface: "steel" },
      { ...plain, text: `TOP OF SLAB ${length}`, basis: "top", surface: "slab" },
      { ...plain, text: `T.O. PARAPET ${length}`, basis: "top", surface: "parapet" },
      { ...plain, text: `B.O. DECK +${length} A.F.F.`, basis: "bottom", surface: "deck", from: "floor" },
      { ...plain, text: `B/DECK EL. ${length}`, basis: "bottom", surface: "deck" },
      { ...plain, text: `BOTTOM OF JOIST ${length}`, basis: "bottom", surface: "joist" },
      { ...plain, text: `U/S DECK ${length}`, basis: "bottom", surface: "deck" },
      { ...plain, text: `B.O. CONDUIT ${length} AFF`, basis: "bottom", surface: "conduit", from: "floor" },
      { ...plain, text: `${length} AFF`, from: "floor" },
      { ...plain, text: `C.L. ${length} AFF`, basis: "centre", from: "floor" },
      { ...plain, text: `(E) T.O.S. ${length}`, basis: "top", surface: "steel", existing: true },
      {
        ...plain,
        text: `(E) B.O. DECK \u00b1${length}`,
        basis: "bottom",
        surface: "deck",
        existing: true,
        approximate: true,
      },
      { ...plain, text: `\u00b1${length}`, approximate: true },
      { ...plain, text: `EL. ${length} V.I.F.`, approximate: true },
      { ...plain, text: `T.O. ROOF DECK EL. ${length}`, basis: "top", surface: "deck" },
      { ...plain, text: `BOD ${length}`, basis: "bottom", surface: "deck" },
      { ...plain, text: `TOS = ${length}`, basis: "top", surface: "steel" },
      { ...plain, text: `EL.${length}` },
      { ...plain, text: `(+${length})` },
      { ...plain, text: `AFF ${length}`, from: "floor" },
      { ...plain, text: `F.F.E. ${length}`, basis: "top", surface: "floor" },
      { ...plain, text: `${below}" BELOW DECK`, inches: below, from: "deck" },
      // Three decimals without a unit are metres.
      { ...plain, text: `+${(metres / 1000).toFixed(3)}`, inches: metres / 25.4 },
      { ...plain, text: `EL. ${metres} mm`, inches: metres / 25.4 },
    ]);
  }

  run(): WrittenRun {
    const size = this.oneOf(["1/2", "3/4", "1", "1 1/4", "1-1/2", "2"]);
    const type = this.oneOf(["EMT", "RMC", "IMC", "PVC", "C"]);
    const [count, wire] = [this.whole(2, 4), this.oneOf(["12", "10", "8", "6", "2", "1/0", "4/0"])];
    const hot = `${count} #${wire}`;
    const ground = `1 #${wire} ground`;
    return this.oneOf<WrittenRun>([
      { text: `${size}"C`, size, type: "C", conductors: [] },
      { text: `${size}" ${type}`, size, type, conductors: [] },
      { text: `${count}#${wire}, 1#${wire}G`, size: null, type: null, conductors: [hot, ground] },
      { text: `${size}"C ${count}#${wire}, 1#${wire}G`, size, type: "C", conductors: [hot, ground] },
      { text: `${size}" ${type} ${count}#${wire} + 1#${wire}GND`, size, type, conductors: [hot, ground] },
      { text: `(E) ${size}" ${type}`, size, type, conductors: [] },
      { text: "MC 12/2", size: "12/2", type: "MC", conductors: [] },
      { text: "12/2 MC", size: "12/2", type: "MC", conductors: [] },
      { text: `(${count})#${wire}, (1)#${wire}G`, size: null, type: null, conductors: [hot, ground] },
      {
        text: `2-${size.includes("/") ? "1" : size}"C`,
        size: size.includes("/") ? "1" : size,
        type: "C",
        conductors: [],
      },
    ]);
  }

  scale(): WrittenScale {
    const scale = (text: string, ratio: number): WrittenScale => ({ text, ratio, kind: "scale" });
    return this.oneOf([
      scale(`1/8" = 1'-0"`, 96),
      scale(`1/4" = 1'-0"`, 48),
      scale(`3/16"=1'-0"`, 64),
      scale(`3/32" = 1'-0"`, 128),
      scale(`1 1/2" = 1'-0"`, 8),
      scale(`1" = 20'-0"`, 240),
      scale("1:50", 50),
      scale("1 : 100", 100),
      { text: "N.T.S.", ratio: null, kind: "not-to-scale" },
      { text: "NOT TO SCALE", ratio: null, kind: "not-to-scale" },
      { text: "AS NOTED", ratio: null, kind: "as-noted" },
    ]);
  }

  slope(): WrittenSlope {
    return this.oneOf([
      { text: `1/4":12"`, rise: 1 / 48 },
      { text: `1/4" / 1'-0"`, rise: 1 / 48 },
      { text: `1/2" PER FOOT`, rise: 1 / 24 },
      { text: `SLOPE 1/8" : 12"`, rise: 1 / 96 },
      { text: "2%", rise: 0.02 },
      { text: "SLOPE 1.5%", rise: 0.015 },
    ]);
  }

  /** Words that are none of these: numbers of rooms, doors and details, dates, telephones, sizes of things, notes. */
  decoy(): string {
    const n = this.whole(100, 399);
    return this.oneOf([
      `${n}`,
      `${n}A`,
      `ROOM ${n}`,
      `${this.whole(1, 12)}/${this.whole(1, 28)}/2024`,
      `555-01${this.whole(10, 99)}`,
      `(555) 555-01${this.whole(10, 99)}`,
      `${this.whole(1, 9)}/A-301`,
      `W${this.whole(8, 24)}X${this.whole(10, 60)}`,
      `W12X26 @ 5'-0" O.C.`,
      `2'x4' TROFFER`,
      `24" x 24" ACCESS PANEL`,
      `4" CONC. SLAB`,
      `6" C-STUD`,
      `5/8" GYP. BD.`,
      `#4 @ 12" O.C.`,
      `2-#5 CONT.`,
      "2#5 BARS",
      `2" C.I. PIPE`,
      `1" C.W.`,
      `EL. 118.29`,
      "24/7",
      "1 HR RATED",
      "TYP.",
      `KEEP 3'-0" CLEAR OF THE PANEL`,
      `MIN. 7'-6" HEADROOM`,
      "RTU-1",
      "L1-22,24",
      `1 1/2" CLEAR`,
      "SEE NOTE 3",
      `80% COMPACTION`,
      "10% SPARE",
      "REV. 2",
    ]);
  }
}
