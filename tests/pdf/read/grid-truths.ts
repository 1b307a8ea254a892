/**
 * Grids of real drawings, outside the project, as a person sees them: read by eye off renderings by poppler, before
 * anything here looked for grids. Bubble middles are in points of the page as displayed (1/72 in., y down), good to
 * about 5 points.
 */
export interface GridTruth {
  readonly file: string;
  readonly page: number;
  /** Middle of each bubble with its label; null for a bubble with nothing written in it. */
  readonly bubbles: readonly { readonly label: string | null; readonly at: readonly [number, number] }[];
  /** Circles with a number or letter that are no grid bubbles, as a reminder of what has to be told apart. */
  readonly decoys: string;
}

type Bubbles = GridTruth["bubbles"];

/** Places measured in pictures of a known scale and offset, to points. */
const along = (
  labels: string,
  places: readonly number[],
  across: number,
  vertical: boolean,
  toPoints: (x: number, y: number) => readonly [number, number],
): Bubbles =>
  labels.split(" ").map((label, i) => {
    const place = places[i]!;
    return {
      label: label === "-" ? null : label,
      at: vertical ? toPoints(across, place) : toPoints(place, across),
    };
  });

/** The set's sheets were looked at in pictures 1,294 pixels wide, of pages 3,024 points wide. */
const set = (x: number, y: number): readonly [number, number] => [(x * 3024) / 1294, (y * 3024) / 1294];
/** The house at 150 dots an inch from (180, 100), shown 1,456 of 1,750 wide. */
const house = (x: number, y: number): readonly [number, number] => [
  ((180 + (x * 1750) / 1456) * 72) / 150,
  ((100 + (y * 1750) / 1456) * 72) / 150,
];
/** The conference sheet at 110 dots an inch: columns from (250, 1400), shown 1,415 of 1,600 wide; rows from (180, 1420). */
const columns = (x: number, y: number): readonly [number, number] => [
  ((250 + (x * 1600) / 1415) * 72) / 110,
  ((1400 + (y * 1600) / 1415) * 72) / 110,
];
const rows = (x: number, y: number): readonly [number, number] => [((180 + x) * 72) / 110, ((1420 + y) * 72) / 110];

const across = (labels: string, places: readonly number[], y: number): Bubbles => along(labels, places, y, false, set);
const down = (labels: string, places: readonly number[], x: number): Bubbles => along(labels, places, x, true, set);

const LONG = "1 2 3 4 5 6 7 8 8.5 9 10 11 12 13 14 15 16 17 18 19 20 21";
const SET = "metal-building-set.pdf";

/** Every page of every drawing of the folder, those without grids too. */
export const gridTruths: readonly GridTruth[] = [
  {
    file: SET,
    page: 1,
    bubbles: [
      ...across("8.5 9 10 11 12 13 14", [89, 177.5, 336, 495, 654, 813, 971.5], 859),
      ...down("E", [299.5], 16.5),
      ...down("F G H J K", [399.5, 451, 530, 580, 703.5], 1089.5),
    ],
    decoys: "circle 1A before the title of the view; circles A-500 of interior views; zone numbers of the border",
  },
  {
    file: SET,
    page: 2,
    bubbles: [
      ...across(
        LONG,
        [
          211.5, 251, 291, 330.5, 370, 410, 450, 489.5, 507.5, 529.5, 569, 608.5, 648.5, 688, 728, 767.5, 807.5, 847,
          887, 926.5, 966, 1006,
        ],
        859,
      ),
      ...down("A B C D E", [526.5, 598.5, 670, 742.5, 814], 188),
    ],
    decoys: "circle 1 before the title; a picture with letters under the bubbles A, C and E",
  },
  {
    file: SET,
    page: 3,
    bubbles: [
      ...across(
        LONG,
        [
          180, 219.5, 259, 299, 338.5, 378, 418.5, 458, 475.5, 497.5, 537.5, 577, 617, 656.5, 696.5, 736, 775.5, 815,
          855, 895, 934.5, 974.5,
        ],
        656,
      ),
      ...down("A B C D E", [202, 274, 346.5, 419, 491], 157),
      ...down("F G H J K", [516, 529, 548.5, 561, 592], 732),
    ],
    decoys: "circle 1 before the title; four round trees, one across the bubble G",
  },
  {
    file: SET,
    page: 4,
    bubbles: [
      ...across("8.5 9 10 11 12 13 14", [98, 185.5, 344.5, 503.5, 662, 821, 980], 915),
      ...down("E", [355.5], 24.5),
      ...down("F G H J K", [455.5, 506.5, 585.5, 635.5, 759.5], 1098),
    ],
    decoys: "circle 1 before the title; circles A-500 of interior views",
  },
  {
    file: SET,
    page: 5,
    bubbles: [
      ...across(
        LONG,
        [
          215, 255, 294.5, 334, 374, 413.5, 453.5, 493, 511, 533, 572.5, 612, 652, 691.5, 731.5, 771, 811, 850.5, 890,
          930, 969.5, 1009.5,
        ],
        842,
      ),
      ...down("A B C D E", [509, 581, 653.5, 725.5, 797.5], 192),
    ],
    decoys: "",
  },
  {
    file: SET,
    page: 6,
    bubbles: [
      ...across("8.5 9 10 11 12 13 14", [87, 175.5, 334, 493, 652, 810.5, 969.5], 115.5),
      ...across("E F G H J K", [131, 231, 282, 361, 411, 535], 364.5),
      ...across("K J H G F E", [211, 335, 385, 464, 515, 615], 633),
    ],
    decoys: "three circles 6D, 6B, 6A before the titles of the views, each at the end of a long line",
  },
  {
    file: SET,
    page: 7,
    bubbles: [
      ...across("J H G F", [106, 173.5, 278.5, 346.5], 41),
      ...across("F G H J", [506.5, 574.5, 679.5, 746], 43.5),
      ...across("11", [829], 53),
      ...across("6", [671.5], 202),
      ...across("14", [616.5], 227),
      ...across("12", [243], 246),
      ...across("11 G 11", [262, 385.5, 583.5], 404.5),
      ...across("11 11 11 11", [252, 371, 646.5, 1041.5], 571),
      ...across("F G H H H", [79, 146.5, 251.5, 455.5, 605], 723),
    ],
    decoys: "about twenty numbered circles before titles, each at the end of a long line",
  },
  {
    file: SET,
    page: 8,
    bubbles: [],
    decoys: "five numbered circles before titles, each at the end of a long line",
  },
  {
    file: "ti-conference-rcp.pdf",
    page: 1,
    bubbles: [
      ...along("- - - - - - - - - -", [43, 104, 201, 298, 396, 493, 590, 688, 785, 882], 73, false, columns),
      ...along("- - - - - - - -", [132, 243, 353, 463, 573, 683, 793, 903], 55, true, rows),
    ],
    decoys: "numbered circles before titles; round columns at the crossings; round luminaires; section marks 1C / A100",
  },
  {
    file: "house-A103-roof-11x17-reduced.pdf",
    page: 1,
    bubbles: [
      ...along(
        "AA A B C D E F G G.8 H I J",
        [195, 242.5, 439, 571, 636.5, 701.5, 756.5, 779, 891.5, 914, 1050.5, 1184],
        104.5,
        false,
        house,
      ),
      ...along("1 2 3 4 5 6", [202, 298, 327, 452, 541.5, 649], 1292, true, house),
    ],
    decoys:
      "thirteen section marks: circles with two texts and a bar at the end of long lines; circle 1 before the title",
  },
  { file: "cad-a3-rot270-vp.pdf", page: 1, bubbles: [], decoys: "round cable ends" },
];
