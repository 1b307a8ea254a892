import type { Entry } from "../../../src/job/elements/entry.ts";
import { FOOT, type Plan } from "../plan-place.ts";
import type { PartName } from "./building.ts";
import { Router, type StoreRun, type StoreTag } from "./router.ts";
import { routeNorthEast, routeNorthWest } from "./routes-north.ts";
import { routeSouthEast, routeSouthWest } from "./routes-south.ts";

/** A box or conduit body on a run, at its plan centre. */
export interface StoreBox {
  readonly label: string;
  readonly part: PartName;
  readonly at: Plan;
  readonly item: string;
  /** As written on the plan. */
  readonly words: string;
  /** Trade size of a conduit body. */
  readonly size?: string;
  readonly turned?: number;
  readonly tag: StoreTag;
}

/** Several raceways on one support, traced once: sizes of tubing from the left, so far from centre to centre, all bearing at one bottom. */
export interface StoreRack {
  readonly label: string;
  readonly part: PartName;
  readonly route: readonly Plan[];
  readonly sizes: readonly string[];
  readonly apart: number;
  /** Elevation of the bottoms above the finished floor of Level 1, inches. */
  readonly bottom: number;
  /** Whether couplings stand somewhere along it. */
  readonly couplings: boolean;
}

/** Where a run enters a panel. */
export interface StoreEntry {
  readonly label: string;
  readonly part: PartName;
  readonly at: Plan;
  readonly run: string;
  readonly panel: string;
  readonly conductor: string;
  readonly insulation: string;
  readonly protection: Entry["protection"];
  readonly fastened: boolean | null;
}

/** All wiring of the building: made once, the same each time. */
export interface StoreWiring {
  readonly runs: readonly StoreRun[];
  readonly boxes: readonly StoreBox[];
  readonly bodies: readonly StoreBox[];
  readonly entries: readonly StoreEntry[];
  readonly racks: readonly StoreRack[];
}

/** Two racks: over the racking of the stock room, and over the aisle of receiving, where the couplings reach higher than the tubing. */
const RACKS: readonly StoreRack[] = [
  {
    label: "K-1",
    part: "nw",
    route: [
      [66 * FOOT, 154 * FOOT],
      [112 * FOOT, 154 * FOOT],
    ],
    sizes: ["1-1/4", "1", "3/4", "3/4"],
    apart: 4,
    bottom: 160,
    couplings: false,
  },
  {
    label: "K-2",
    part: "ne",
    route: [
      [188 * FOOT, 138.5 * FOOT],
      [223 * FOOT, 138.5 * FOOT],
    ],
    sizes: ["2", "2", "2"],
    apart: 5,
    bottom: 188,
    couplings: true,
  },
];

export function makeWiring(): StoreWiring {
  const router = new Router();
  routeSouthWest(router);
  routeSouthEast(router);
  routeNorthWest(router);
  routeNorthEast(router);
  const { runs } = router;
  return { runs, boxes: boxesOn(runs), bodies: bodiesOn(runs), entries: entriesOf(runs), racks: RACKS };
}

const KINDS = [
  { item: "4sq-2-1/8", words: `4" SQ 2 1/8"D` },
  { item: "4oct-1-1/2", words: `4" OCT 1 1/2"D` },
  { item: "4-11/16sq-2-1/8", words: `4 11/16" SQ 2 1/8"D` },
] as const;

/** A box on every fifth level run of tubing, at its east or its north end; some with an elevation of their own, from the deck down. */
function boxesOn(runs: readonly StoreRun[]): StoreBox[] {
  const level = runs.filter(
    ({ route, tags, wiring, remark }) =>
      route.length === 2 &&
      remark === "" &&
      wiring.type === "emt" &&
      tags[0]?.basis === "centre" &&
      tags[0].inches === tags[1]?.inches,
  );
  return level
    .filter((_, i) => i % 5 === 2)
    .map((run, i): StoreBox => {
      const tag = run.tags[1]!;
      const own: StoreTag = i % 9 === 4 ? { basis: "top", from: "below-deck", inches: 6 } : tag;
      return { label: `B-${i + 1}`, part: run.part, at: northOrEast(run), ...KINDS[i % 3]!, tag: own };
    });
}

const northOrEast = ({ route: [a, b] }: StoreRun): Plan => (a![0] + a![1] > b![0] + b![1] ? a! : b!);

/** Whether a run goes from its panel round one corner; one with words of its own is something else. */
export const isHomeRun = ({ route, remark }: StoreRun): boolean => route.length === 3 && remark === "";

/** A conduit body at every second corner of the home runs. */
function bodiesOn(runs: readonly StoreRun[]): StoreBox[] {
  return runs
    .filter((run) => isHomeRun(run) && run.wiring.type === "emt" && run.tags[0]?.basis === "centre")
    .filter((_, i) => i % 2 === 0)
    .map((run, i) => ({
      label: `F-${i + 1}`,
      part: run.part,
      at: run.route[1]!,
      item: "conduit-body",
      words: `${run.wiring.size.replace("-", " ")}" COND. BODY`,
      size: run.wiring.size,
      turned: 0,
      tag: run.tags[0]!,
    }));
}

/** Entries of the feeders into the switchboard, and of the largest branches into their panels. */
function entriesOf(runs: readonly StoreRun[]): StoreEntry[] {
  const bushing = (ratingC: number) => ({ is: "method", method: "insulating-fitting", ratingC }) as const;
  const how: readonly [Entry["protection"], string, boolean | null][] = [
    [bushing(105), "THWN-2", true],
    [bushing(105), "THWN-2", true],
    [bushing(75), "THWN-2", true],
    [{ is: "method", method: "listed-metal-fitting", ratingC: null }, "XHHW-2", true],
    [bushing(105), "THWN-2", true],
    [{ is: "none" }, "THWN-2", true],
    [{ is: "method", method: "integral-hub", ratingC: null }, "XHHW-2", null],
    [{ is: "not-recorded" }, "THWN-2", null],
  ];
  return runs
    .filter(({ circuit }) => circuit.includes("MDP-"))
    .map((run, i) => {
      const [protection, insulation, fastened] = how[i]!;
      const conductor = /#([\d/]+)/.exec(run.circuit)![1]!;
      const label = `E-${i + 1}`;
      return {
        label,
        part: run.part,
        at: run.route[0]!,
        run: run.label,
        panel: "MDP",
        conductor,
        insulation,
        protection,
        fastened,
      };
    });
}

/** Length of a run in plan, feet. */
export const runLength = ({ route }: StoreRun): number =>
  route.slice(1).reduce((sum, to, i) => sum + Math.hypot(to[0] - route[i]![0], to[1] - route[i]![1]), 0) / FOOT;
