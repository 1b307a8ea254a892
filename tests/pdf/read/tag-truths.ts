import { inCrop } from "./sheet-truth.ts";

/**
 * Elevations, slopes and what is written of raceways on real drawings, as a person reads them: written down off renderings by
 * poppler before anything here looked for them. Places are in points of the page as displayed (1/72 in., y down).
 */
export interface TagTruth {
  readonly file: string;
  readonly page: number;
  /** Elevations: the figure as written, inches, and the middle of the figure. */
  readonly tags: readonly (readonly [text: string, inches: number, at: readonly [number, number]])[];
  /** Slopes: as written, inches of rise in a foot, the middle of the text, and its arrow from tail to tip. */
  readonly slopes: readonly (readonly [
    text: string,
    inchesInFoot: number,
    at: readonly [number, number],
    tail: readonly [number, number],
    tip: readonly [number, number],
  ])[];
  /** Sizes, types and conductors of raceways and cables. */
  readonly runNotes: readonly string[];
  /** What looks like one of these and is none. */
  readonly decoys: string;
}

const SET = "../shared/drawings/metal-building-set.pdf";
const nothing = (page: number, decoys: string): TagTruth => ({
  file: SET,
  page,
  tags: [],
  slopes: [],
  runNotes: [],
  decoys,
});

/** Parts of the conference sheet at 100 dots an inch. */
const north = inCrop(100, 100, 2380);
const west = inCrop(100, 1300, 2380);
const south = inCrop(100, 2550, 2380);
/** Parts of the house at 220 dots an inch. */
const left = inCrop(220, 330, 250);
const right = inCrop(220, 1400, 250);
const lower = inCrop(220, 800, 750);

const slope = (
  text: string,
  inchesInFoot: number,
  part: (x: number, y: number) => readonly [number, number],
  at: readonly [number, number],
  tail: readonly [number, number],
  tip: readonly [number, number],
): TagTruth["slopes"][number] => [text, inchesInFoot, part(...at), part(...tail), part(...tip)];

/** Every page of every drawing of the folder, those with nothing of the kind too. */
export const tagTruths: readonly TagTruth[] = [
  nothing(1, "sizes of rooms in square feet; dimensions; A-500 with numbers round it"),
  nothing(2, "a scanned site plan with inverts, rims and per cents, upside down: a picture, nothing to read in it"),
  nothing(3, "dimensions"),
  nothing(4, "names of rooms"),
  nothing(5, ""),
  nothing(6, "notes with leaders"),
  nothing(7, ""),
  nothing(8, ""),
  {
    file: "../shared/drawings/ti-conference-rcp.pdf",
    page: 1,
    tags: [
      [`0' - 0"`, 0, north(1064, 342)],
      [`0' - 0"`, 0, west(1030, 341)],
      [`0' - 0"`, 0, south(817, 342)],
    ],
    slopes: [],
    runNotes: [],
    decoys: `METAL STUD 16" O.C.; 5/8" GYP. BD; 8FT LONG; dimensions with (VERIFY) under them; 1 1/2 in words beside them`,
  },
  {
    file: "../shared/drawings/house-A103-roof-11x17-reduced.pdf",
    page: 1,
    tags: [],
    slopes: [
      slope(`7" / 1'-0"`, 7, left, [1043, 271], [1085, 284], [1003, 284]),
      slope(`7" / 1'-0"`, 7, left, [1157, 293], [1168, 335], [1168, 254]),
      slope(`10" / 1'-0"`, 10, left, [768, 340], [778, 382], [778, 300]),
      slope(`10" / 1'-0"`, 10, left, [1114, 415], [1126, 458], [1126, 376]),
      slope(`10" / 1'-0"`, 10, left, [1114, 525], [1126, 486], [1126, 568]),
      slope(`10" / 1'-0"`, 10, left, [771, 551], [782, 512], [782, 594]),
      slope(`7" / 1'-0"`, 7, left, [1030, 649], [1072, 660], [990, 660]),
      slope(`7" / 1'-0"`, 7, right, [476, 415], [487, 458], [487, 376]),
      slope(`7" / 1'-0"`, 7, right, [565, 455], [525, 466], [606, 466]),
      slope(`7" / 1'-0"`, 7, right, [478, 533], [488, 492], [488, 574]),
      slope(`1/8" / 1'-0"`, 1 / 8, right, [854, 524], [813, 535], [895, 535]),
      slope(`7" / 1'-0"`, 7, right, [335, 565], [346, 525], [346, 606]),
      slope(`7" / 1'-0"`, 7, right, [145, 581], [156, 542], [156, 624]),
      slope(`7" / 1'-0"`, 7, right, [183, 646], [224, 657], [142, 657]),
      slope(`1/8" / 1'-0"`, 1 / 8, lower, [522, 389], [563, 400], [481, 400]),
      slope(`7" / 1'-0"`, 7, lower, [953, 376], [911, 380], [993, 391]),
      slope(`7" / 1'-0"`, 7, lower, [847, 466], [858, 426], [858, 508]),
    ],
    runNotes: [],
    decoys: `overhangs 0'-5 5/8" and 2'-6" with leaders; section marks`,
  },
  {
    file: "../shared/drawings/cad-a3-rot270-vp.pdf",
    page: 1,
    tags: [],
    slopes: [],
    runNotes: [],
    decoys: "sizes of threads, ranges in millimetres and torques in a table; 27 mm",
  },
];
