import { chain, inCrop, type SheetTruth, times } from "./sheet-truth.ts";

const SET = "../shared/drawings/metal-building-set.pdf";
const CABLE = "../shared/drawings/cad-a3-rot270-vp.pdf";

/** Parts of the floor plan, page 1, at 100 dots an inch. */
const washrooms = inCrop(100, 1080, 380);
const offices = inCrop(100, 1780, 880);
const lobby = inCrop(100, 1780, 1680);
const lockers = inCrop(100, 1280, 950);
const garden = inCrop(100, 2950, 900);
/** A whole page at 100 dots an inch. */
const whole = inCrop(100, 0, 0);
/** Parts of the warehouse plan, page 2, at 100 dots an inch, shown 1,255 of 1,450 and 1,232 of 1,400 wide. */
const west = inCrop(100, 560, 1680, 1255 / 1450);
const east = inCrop(100, 1950, 1680, 1232 / 1400);
/** The cable at 250 dots an inch. */
const cable = inCrop(250, 0, 250);

const ELEVATIONS = [
  "SALES OFFICE WEST ELEVATION",
  "SALES OFFICE - EAST ELEVATION",
  "WareHouse Office - South Elevation",
  "Sales Office - South Elevation",
  "Conference - North Elevation",
  "SHIPPING OFFICE - NORTH ELEVATION",
  "Kitchen - East Elevation",
  "Kitchen - North Elevation",
  "Kitchen - West Elevation",
  "Kitchen - South Elevation",
  "KITCHINETTE - NORTH ELEVATION",
  "WOMEN - NORTH ELEVATION",
  "WOMEN - SOUTH ELEVATION",
  "MEN - SOUTH ELEVATION",
  "MEN - NORTH ELEVATION",
  "OFFICE - EAST ELEVATION",
  "COPY ROOM - EAST ELEVATION",
  "COPY ROOM - WEST ELEVATION",
  "COPY ROOM - SOUTH eLEVATION",
  "COPY ROOM - NORTH ELEVATION",
];

/** The dense sheets of a real set and a cable drawing in millimetres: every dimension, every note. */
export const setTruths: readonly SheetTruth[] = [
  {
    file: SET,
    page: 1,
    number: "A-100",
    name: "FLOOR PLAN - OFFICE ANNEX",
    notes: [
      [`3/16" = 1'-0"`, "Floor Plan - Office Annex"],
      [`3/16" = 1'-0"`, null],
    ],
    dimensions: [
      ...chain([`8' - 1"`, `5' - 4"`, `5' - 4"`, `8' - 1"`], [51, 203, 303, 403, 553], 43, true, washrooms),
      ...chain([`4' - 3"`], [201, 279], 87, false, washrooms),
      ...chain([`3' - 0"`], [370, 427], 84, false, lockers),
      ...chain(
        [`8' - 5"`, `8' - 5"`, `8' - 5"`, `8' - 5"`, `5' - 5"`, `8' - 8"`, `15' - 11"`, `7' - 3"`],
        [50, 208, 366, 524, 683, 783, 945, 1243, 1379],
        47,
        false,
        offices,
      ),
      ...chain(
        [`8' - 4"`, `5' - 8"`, `8' - 5"`, `8' - 5"`, `8' - 11"`, `8' - 8"`, `5' - 5"`],
        [94, 251, 357, 515, 673, 841, 1003, 1104],
        343,
        true,
        offices,
      ),
      ...chain([`14' - 1"`, `12' - 1"`, `19' - 8"`, `2' - 8"`], [92, 357, 584, 953, 1003], 738, true, offices),
      ...chain([`4' - 2"`], [955, 1032], 240, false, offices),
      ...chain(
        [`4' - 1"`, `8' - 0"`, `8' - 0"`, `3' - 0"`, `8' - 2"`, `16' - 6"`],
        [254, 330, 480, 630, 686, 840, 1149],
        1060,
        true,
        offices,
      ),
      ...chain(
        [`8' - 3"`, `11' - 8"`, `14' - 0"`, `20' - 0"`, `2' - 5"`, `13' - 3"`],
        [96, 251, 469, 732, 1107, 1152, 1400],
        1336,
        true,
        offices,
      ),
      ...chain(
        [
          `20' - 8"`,
          `22' - 11"`,
          `18' - 2"`,
          `5' - 5"`,
          `8' - 5"`,
          `5' - 5"`,
          `8' - 5"`,
          `11' - 5"`,
          `4' - 5"`,
          `13' - 4"`,
          `5' - 3"`,
          `14' - 3"`,
        ],
        [570, 958, 1387, 1729, 1830, 1988, 2090, 2248, 2463, 2545, 2795, 2892, 3160],
        1372,
        false,
        whole,
      ),
      ...chain([`4' - 0"`, `7' - 5"`], [467, 543, 683], 257, false, lobby),
      ...chain(
        [`61' - 3"`, `13' - 5"`, `13' - 5"`, `13' - 5"`, `10' - 0"`, `7' - 7"`],
        [557, 1706, 1958, 2210, 2463, 2648, 2793],
        2142,
        false,
        whole,
      ),
      ...chain([`15' - 3"`, ...times(5, `27' - 6"`)], [290, 576, 1092, 1607, 2123, 2638, 3155], 2595, false, whole),
      ...chain(
        [`17' - 4"`, `8' - 10"`, `13' - 8"`, `8' - 8"`, `21' - 6"`],
        [72, 398, 564, 820, 983, 1386],
        403,
        true,
        garden,
      ),
    ],
    bars: [],
  },
  {
    file: SET,
    page: 2,
    number: "A-101",
    name: "FLOOR PLAN - WAREHOUSE",
    notes: [
      [`3/64" = 1'-0"`, "Floor Plan - Warehouse"],
      [`3/64" = 1'-0"`, null],
    ],
    dimensions: [
      ...chain(times(4, `50' - 0"`), [24, 226.5, 430, 632.5, 835], 82.5, true, west),
      ...chain([`22' - 11"`], [668, 760], 111, false, west),
      ...chain([`11' - 0"`], [27, 72], 885.5, true, west),
      ...chain([`221' - 0"`], [105, 1002], 382, false, west),
      [`137' - 6"`, west(1002, 382), east(363, 388)],
      ...chain([`193' - 11"`], [363, 1162], 388, false, east),
      ...chain([`30' - 5"`], [109, 232], 744, false, west),
      ...chain([`30' - 0"`], [711, 833], 314, true, west),
      ...chain([`12' - 3"`, `15' - 3"`], [891, 941, 1002], 870, false, west),
      ...chain([`73' - 6"`], [28, 331], 87, true, east),
      ...chain(
        times(10, `27' - 6"`),
        [110, 222, 333.5, 444.5, 556, 667.5, 779, 891, 1002, 1114, 1226],
        921,
        false,
        west,
      ),
      ...chain(times(10, `27' - 6"`), [23, 137, 250, 363, 477, 590, 703, 817, 930.5, 1044, 1158], 936.5, false, east),
    ],
    bars: [],
  },
  {
    file: SET,
    page: 5,
    number: "A-151",
    name: "REFLECTED CEILING PLAN - WAREHOUSE",
    notes: [[`3/64" = 1'-0"`, null]],
    dimensions: [],
    bars: [],
  },
  {
    file: SET,
    page: 6,
    number: "A-300",
    name: "Exterior Elevations",
    notes: [
      [`3/16" = 1'-0"`, "Building Elevation - North"],
      [`3/16" = 1'-0"`, "Building Elevation - East"],
      [`3/16" = 1'-0"`, "Building Elevation - West"],
      [`3/16" = 1'-0"`, null],
    ],
    dimensions: [],
    bars: [],
  },
  {
    file: SET,
    page: 7,
    number: "A-500",
    name: "INTERIOR ELEVATIONS",
    notes: [...ELEVATIONS.map((title) => [`1/4" = 1'-0"`, title] as const), [`1/4" = 1'-0"`, null]],
    dimensions: [],
    bars: [],
  },
  { file: SET, page: 8, number: "A-900", name: "PERSPECTIVES", notes: [], dimensions: [], bars: [] },
  {
    file: CABLE,
    page: 1,
    number: null,
    name: null,
    notes: [],
    dimensions: chain(["27 mm"], [473, 652], 291, false, cable),
    bars: [],
  },
];
