import { setTruths } from "./set-truths.ts";
import { chain, inCrop, type SheetTruth, times } from "./sheet-truth.ts";

const SET = "../shared/drawings/metal-building-set.pdf";
const CONFERENCE = "../shared/drawings/ti-conference-rcp.pdf";
const HOUSE = "../shared/drawings/house-A103-roof-11x17-reduced.pdf";
const WORKSHOP = "samples/riverside-workshop/riverside-workshop.pdf";
const STORE = "samples/fennick-lane-store/fennick-lane-store.pdf";

/** Pictures of the set and of the conference sheet were 1,294 pixels wide, of pages 3,024 points wide. */
const set = (x: number, y: number): readonly [number, number] => [(x * 3024) / 1294, (y * 3024) / 1294];
/** A part of the conference sheet at 100 dots an inch from (1500, 300). */
const floor = (x: number, y: number): readonly [number, number] => [(1500 + x) * 0.72, (300 + y) * 0.72];
/** A part of the house at 300 dots an inch from (1900, 100). */
const eaves = (x: number, y: number): readonly [number, number] => [(1900 + x) * 0.24, (100 + y) * 0.24];
/** The framing sheet in a picture 1,270 pixels wide of a page 1,728 points wide; the ceiling sheet 1,344 of 2,592; the store's alike. */
const framing = (x: number, y: number): readonly [number, number] => [(x * 1728) / 1270, (y * 1728) / 1270];
const ceiling = (x: number, y: number): readonly [number, number] => [(x * 2592) / 1344, (y * 2592) / 1344];

const BAYS = [
  180, 219.5, 259, 299, 338.5, 378, 418.5, 458, 497.5, 537.5, 577, 617, 656.5, 696.5, 736, 775.5, 815, 855, 895, 934.5,
  974.5,
];
const STORE_BAYS = [120.5, 225.5, 330.5, 435.5, 540.5, 645.5, 750.5, 855.5, 960.5];

/** Sheets with what stands on them: those of real drawings, all pages, and some of the samples. */
export const sheetTruths: readonly SheetTruth[] = [
  ...setTruths,
  {
    file: SET,
    page: 3,
    number: "A-110",
    name: "ROOF PLAN",
    notes: [
      [`3/64" = 1'-0"`, "Roof Plan"],
      [`3/64" = 1'-0"`, null],
    ],
    dimensions: [
      ...chain(times(20, `27' - 6"`), BAYS, 628, false, set),
      ...chain(times(4, `50' - 0"`), [202, 274, 346.5, 419, 491], 171, true, set),
      ...chain(
        [`17' - 4"`, `8' - 10"`, `13' - 8"`, `8' - 8"`, `21' - 6"`],
        [491, 516, 529, 548.5, 561, 592],
        769,
        true,
        set,
      ),
    ],
    bars: [],
  },
  {
    file: SET,
    page: 4,
    number: "A-150",
    name: "REFLECTED CEILING PLAN - OFFICE ANNEX",
    notes: [
      [`3/16" = 1'-0"`, "REFLECTED CEILING PLAN - OFFICE ANNEX"],
      [`3/16" = 1'-0"`, null],
    ],
    dimensions: [],
    bars: [],
  },
  {
    file: CONFERENCE,
    page: 1,
    number: "A100",
    name: "Floor Plans & Elevations",
    notes: [
      [`1/4" = 1'-0"`, "Demolition Plan"],
      [`1/4" = 1'-0"`, "Floor Plan"],
      [`1/4" = 1'-0"`, "Reflected Ceiling Plan"],
      [`1" = 30'-0"`, "Overall Floor Plan"],
      [`1/4" = 1'-0"`, "Demo and New Overlap"],
      [`3" = 1'-0"`, "Detail at Glass Wall"],
      [`1/4" = 1'-0"`, "Interior Elevation - North Wall of Conf. Room"],
      [`1/4" = 1'-0"`, "Interior Elevation - West Wall of Conf. Room"],
      [`1/4" = 1'-0"`, "Interior Elevation - South Wall of Conf. Room"],
      ["As indicated", null],
    ],
    dimensions: [
      [`21' - 6"`, floor(180, 192), floor(718, 192)],
      ...chain([`5' - 8 1/2"`, `10' - 0"`, `5' - 9 1/2"`], [180, 323, 573, 718], 290, false, floor),
      ...chain([`5' - 3 1/2"`, `10' - 0"`, `4' - 8"`], [229, 362, 612, 728], 693, true, floor),
      ...chain([`19' - 11 1/2"`], [229, 728], 0, true, floor),
      ...chain([`7' - 2"`], [565, 744], 360, false, inCrop(100, 2400, 250)),
      ...chain([`3' - 7"`], [670, 760], 213, false, inCrop(100, 100, 2380)),
      ...chain([`3' - 10"`], [608, 703], 288, false, inCrop(100, 1300, 2380)),
      ...chain([`3' - 0"`, `1' - 8"`], [799, 874, 916], 374, false, inCrop(100, 1300, 2380)),
    ],
    bars: [],
  },
  {
    file: HOUSE,
    page: 1,
    number: "A-103",
    name: "Roof Plan",
    notes: [
      [`1/4" = 1'-0"`, "Roof"],
      [`1/4" = 1'-0"`, null],
    ],
    dimensions: [
      [`0' - 5 5/8"`, eaves(613, 512), eaves(613, 526)],
      [`2' - 6"`, eaves(686, 512), eaves(686, 582)],
    ],
    bars: [],
  },
  {
    file: WORKSHOP,
    page: 1,
    number: "S-201",
    name: "ROOF FRAMING PLAN AND DETAILS",
    notes: [
      [`1/8" = 1'-0"`, "ROOF FRAMING PLAN"],
      [`3" = 1'-0"`, "DECK BEARING"],
      [`3/4" = 1'-0"`, "STEP AT GRID 4"],
      ["AS NOTED", null],
    ],
    dimensions: [
      ...chain(times(4, `24'-0"`), [170.5, 329, 488, 646.5, 805.5], 141.5, false, framing),
      [`96'-0"`, framing(170.5, 125.5), framing(805.5, 125.5)],
      ...chain(times(3, `20'-0"`), [158.5, 291, 423, 555], 155, true, framing),
      [`60'-0"`, framing(139, 158.5), framing(139, 555)],
    ],
    bars: [["32'", framing(308.5, 681.5), framing(520, 681.5)]],
  },
  {
    file: WORKSHOP,
    page: 2,
    number: "A-131",
    name: "REFLECTED CEILING PLAN AND RACEWAYS",
    notes: [
      [`1/4" = 1'-0"`, "REFLECTED CEILING PLAN, LEVEL 1"],
      [`1/4" = 1'-0"`, null],
    ],
    dimensions: [
      ...chain(times(4, `24'-0"`), [155.5, 379.5, 603.5, 827.5, 1051.5], 111, false, ceiling),
      [`96'-0"`, ceiling(155.5, 100), ceiling(1051.5, 100)],
      ...chain(times(3, `20'-0"`), [130.5, 317.5, 504, 690.5], 134, true, ceiling),
      [`60'-0"`, ceiling(123, 130.5), ceiling(123, 690.5)],
    ],
    bars: [["16'", ceiling(321.5, 849), ceiling(471, 849)]],
  },
  {
    file: STORE,
    page: 1,
    number: "G-001",
    name: "COVER, INDEX AND GENERAL NOTES",
    notes: [
      ["NOT TO SCALE", "THE ROOFS FROM THE SOUTH WEST"],
      ["NO SCALE", null],
    ],
    dimensions: [],
    bars: [],
  },
  {
    file: STORE,
    page: 3,
    number: "A-120",
    name: "ROOF PLAN, SLOPES AND DRAINS",
    notes: [
      [`3/32" = 1'-0"`, "ROOF PLAN"],
      [`1" = 1'-0"`, "TAPERED INSULATION"],
      [`3/32" = 1'-0"`, null],
    ],
    dimensions: [
      ...chain(times(8, `30'-0"`), STORE_BAYS, 167, false, ceiling),
      [`240'-0"`, ceiling(120.5, 156), ceiling(960.5, 156)],
      ...chain(times(5, `32'-0"`), [180.5, 292.5, 404.5, 516.5, 628.5, 740.5], 109, true, ceiling),
      [`160'-0"`, ceiling(97.5, 180.5), ceiling(97.5, 740.5)],
    ],
    bars: [["64'", ceiling(291, 843.5), ceiling(515, 843.5)]],
  },
];
