import { draw, type Kind, pick, type Random, spread } from "./drawn-scenes.ts";
import { type PlainArea, type PlainRun, type PlainScene, planeOver } from "./plain-check.ts";
import { heightOf, type Spot } from "./plain-distance.ts";

/*
 * The jobs a person would have made of random scenes: traced on sheets of any scale and turn, registered by shared points, elevations given to any
 * surface and counted from anywhere, in any unit.
 */
export interface RandomJob {
  readonly scene: PlainScene;
  /** The job as data, as a job file holds it. */
  readonly json: Record<string, unknown>;
}

/** A sheet as it lies on the building: building = scale turned(sheet - origin). */
interface Laid {
  readonly scale: number;
  readonly turn: number;
  readonly origin: Spot;
}

function laid(random: Random, scale: number): Laid {
  const turn = random() < 0.3 ? (Math.PI / 2) * Math.floor(4 * random()) : 2 * Math.PI * random();
  return { scale, turn, origin: [spread(random, 2000), spread(random, 2000)] };
}

const UNITS = { in: 1, ft: 12, mm: 1 / 25.4, m: 1 / 0.0254 } as const;
function anyLength(random: Random, inches: number) {
  const unit = random() < 0.5 ? "in" : pick(random, ["ft", "mm", "m"] as const);
  return { value: inches / UNITS[unit], unit };
}

/** One random job of a kind, and the scene it was made of. */
export function randomJob(kind: Kind, random: Random): RandomJob {
  const system = random() < 0.3 ? "metric" : "imperial";
  // The rule states both: 1 1/2 in., 38 mm.
  const required = system === "metric" ? 38 / 25.4 : 1.5;
  const drawn = draw(kind, random, required);
  const scene: PlainScene = { kind, required, ...drawn };
  const away: Spot = kind === "far" ? [spread(random, 1e6), spread(random, 1e6)] : [0, 0];

  const sheet = (userUnit: number, rotate: number) => ({
    title: "",
    file: { sha256: "0".repeat(64), name: "plan.pdf", bytes: 1 },
    page: 1,
    view: [-10, 20, 2990, 2020],
    rotate,
    userUnit,
  });
  const userUnits = [pick(random, [1, 1, 2]), pick(random, [1, 1, 3])] as const;
  const ratios = [pick(random, [48, 64, 96, 100, 128]), pick(random, [24, 50, 72, 96])] as const;
  const lays = [laid(random, (ratios[0] * userUnits[0]) / 72), laid(random, (ratios[1] * userUnits[1]) / 72)] as const;
  const onSheet = (which: 0 | 1, [x, y]: Spot): Spot => {
    const { scale, turn, origin } = lays[which];
    const [bx, by] = [(x + away[0]) / scale, (y + away[1]) / scale];
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    return [c * bx + s * by + origin[0], c * by - s * bx + origin[1]];
  };
  const stated = (n: 0 | 1) => ({
    stated: { text: `1:${ratios[n]}`, ratio: ratios[n] },
    measured: null,
    use: "stated",
  });
  const measured = (n: 0 | 1) => ({
    stated: { text: "1:7", ratio: 7 },
    measured: { a: onSheet(n, [-100, 30]), b: onSheet(n, [200, 430]), distance: { value: 500, unit: "in" } },
    use: "measured",
  });
  const registered = random() < 0.5;
  const crosses: readonly Spot[] = [
    [-180, -170],
    [420, -150],
    [400, 380],
    [-150, 350],
  ];
  const grid = crosses.slice(0, 2 + Math.floor(3 * random()));
  const viewports: Record<string, unknown> = {
    v0: {
      sheet: "s0",
      name: "Roof",
      region: null,
      storey: null,
      scale: random() < 0.5 ? stated(0) : measured(0),
      registration: null,
    },
    v1: {
      sheet: "s1",
      name: "Wiring",
      region: null,
      storey: "upper",
      scale: random() < 0.5 ? { stated: null, measured: null, use: null } : stated(1),
      registration: {
        to: "v0",
        pairs: grid.map((spot, i) => ({ label: `${i}`, here: onSheet(1, spot), there: onSheet(0, spot) })),
      },
    },
  };
  const forAreas = 0;
  const forElements = registered ? 1 : 0;

  const floor = 100 + Math.round(40 * random());
  const datum = () => (random() < 0.5 ? { from: "project" } : { from: "storey", storey: "upper" });
  const start = (from: { from: string }): number => (from.from === "project" ? 0 : floor);
  const storey = drawn.areas.find((area) => area.storey)?.storey;
  const builtUp = new Map<string, number>();
  const areas = Object.fromEntries(
    drawn.areas.slice(0, storey ? 1 : drawn.areas.length).map((area, n) => {
      const rings = area.storey?.whole ?? area.rings;
      const basis = pick(random, [
        "bottom-of-deck",
        "top-of-steel",
        "top-of-deck",
        "top-of-slab",
        "top-of-roofing",
      ] as const);
      const thicknesses = basis === "top-of-slab" || basis === "top-of-roofing" ? [0.5 + random(), 2] : [];
      const own = random() < 0.3;
      const above =
        basis.startsWith("bottom") || basis === "top-of-steel"
          ? 0
          : area.depth + thicknesses.reduce((a, b) => a + b, 0);
      if (thicknesses.length > 0) builtUp.set(area.id, above);
      const from = datum();
      const [one] = rings[0]!;
      const given = (spot: Spot) =>
        area.surfaces ? anyLength(random, heightOf(planeOver(area.surfaces, spot), spot) + above - start(from)) : null;
      const plane = area.surfaces?.[0];
      const slope = plane ? Math.hypot(plane.gx, plane.gy) : 0;
      const three: readonly Spot[] = [
        [-170 + 20 * random(), -160],
        [390, -140 + 30 * random()],
        [10, 300],
      ];
      const { folds } = area;
      const way = kind === "spots" ? "spots" : slope === 0 && random() < 0.7 ? "level" : "slope";
      const onSpot = (spot: Spot, z: number) => ({
        at: onSheet(forAreas, spot),
        elevation: anyLength(random, z + above - start(from)),
      });
      const shape = folds
        ? {
            is: "spots",
            spots: folds.spots.map(([x, y, z]) => onSpot([x, y], z)),
            lines: folds.lines.map(([a, b]) => ({ between: [a, b], kind: pick(random, ["ridge", "hip", "valley"]) })),
          }
        : way === "spots"
          ? { is: "spots", spots: three.map((spot) => ({ at: onSheet(forAreas, spot), elevation: given(spot) })) }
          : way === "level"
            ? { is: "level", at: given(one!) }
            : {
                is: "slope",
                at: given(one!),
                point: onSheet(forAreas, one!),
                towards: onSheet(
                  forAreas,
                  slope === 0
                    ? [one![0] + 50, one![1]]
                    : [one![0] - (100 * plane!.gx) / slope, one![1] - (100 * plane!.gy) / slope],
                ),
                rise: slope,
                text: "",
              };
      return [
        area.id,
        {
          label: `A-${n + 1}`,
          viewport: "v0",
          outline: rings[0]!.map((spot) => onSheet(forAreas, spot)),
          holes: rings.slice(1).map((ring) => ring.map((spot) => onSheet(forAreas, spot))),
          classification: area.storey
            ? { is: "from-outline", outlines: ["above"], reason: "", by: "" }
            : { is: area.is, reason: "", by: "" },
          deck: {
            profile: own ? "steel-other" : area.profile,
            depth: own ? anyLength(random, area.depth) : null,
            concreteCover: { is: "none" },
          },
          elevation: {
            datum: from,
            basis,
            layers: thicknesses.map((thickness) => ({ name: "layer", thickness: anyLength(random, thickness) })),
            shape,
            plusMinus: null,
          },
        },
      ];
    }),
  );

  const tag = (axis: number, half: number) => {
    const basis = pick(random, ["bottom", "centre", "top"] as const);
    const from = datum();
    const named = axis + (basis === "top" ? half : basis === "bottom" ? -half : 0);
    return { length: anyLength(random, named - start(from)), datum: from, basis, plusMinus: null };
  };
  const facts = { steelFittings: null, inConcrete: null, concreteThickness: null, accessible: null };
  const viewport = `v${forElements}`;
  const inRacks = new Set(drawn.racks.flatMap(({ raceways }) => raceways.map(({ id }) => id)));
  const own = (length: number) => ({ is: "own", length: anyLength(random, length) });
  const besides = ({ radius, standsOut, bend }: PlainRun) => ({
    ...(standsOut === undefined ? {} : { couplings: own(2 * (radius + standsOut)) }),
    ...(bend === undefined ? {} : { bends: own(bend) }),
  });
  const runs = drawn.runs.flatMap((run) =>
    inRacks.has(run.id)
      ? []
      : [
          [
            run.id,
            {
              kind: "run",
              label: run.id,
              viewport,
              wiring:
                random() < 0.7
                  ? { type: "emt", tradeSize: run.size, outsideDiameter: null }
                  : { type: "fmc", tradeSize: "1/2", outsideDiameter: anyLength(random, 2 * run.radius) },
              vertices: run.points.map(([x, y, z]) => ({ at: onSheet(forElements, [x, y]), tag: tag(z, run.radius) })),
              facts,
              ...besides(run),
            },
          ],
        ],
  );
  const racks = drawn.racks.map(({ id, line, apart, raceways }) => {
    const largest = Math.max(...raceways.map(({ radius }) => radius));
    return [
      id,
      {
        kind: "rack",
        label: id,
        viewport,
        raceways: raceways.map(({ size }) => ({
          label: "",
          wiring: { type: "emt", tradeSize: size, outsideDiameter: null },
          facts,
        })),
        spacing:
          random() < 0.5
            ? { is: "centres", apart: anyLength(random, apart) }
            : {
                is: "offsets",
                offsets: raceways.map((_, i) => anyLength(random, (i - (raceways.length - 1) / 2) * apart)),
              },
        // Its tags name the largest of them.
        vertices: line.map(([x, y, z]) => ({ at: onSheet(forElements, [x, y]), tag: tag(z + largest, largest) })),
      },
    ];
  });
  const bars = drawn.bars.map(({ id, from, to, width, height }) => [
    id,
    {
      kind: "run",
      label: id,
      viewport,
      wiring: {
        type: "wireway",
        tradeSize: "4x4",
        outsideDiameter: null,
        section: { width: anyLength(random, width), height: anyLength(random, height) },
      },
      vertices: [from, to].map(([x, y, z]) => ({ at: onSheet(forElements, [x, y]), tag: tag(z, height / 2) })),
      facts,
    },
  ]);
  const boxes = drawn.boxes.map(({ id, block: { centre, half, turn } }) => {
    const down = random() < 0.6;
    const fitting = random() < 0.3;
    const size = (n: number) => anyLength(random, n);
    const placed = {
      label: id,
      viewport,
      at: onSheet(forElements, [centre[0], centre[1]]),
      item: "other",
      rotationDeg: ((turn - lays[forElements].turn) * 180) / Math.PI,
      tag: tag(centre[2], half[2]),
      facts,
    };
    // A fitting lies along its length; a box shows its length in plan with its cover down, its width and depth with it sideways.
    const [along, across, height] = half.map((h) => 2 * h) as [number, number, number];
    return [
      id,
      fitting
        ? {
            ...placed,
            kind: "fitting",
            tradeSize: "",
            size: { length: size(along), width: size(across), height: size(height) },
          }
        : {
            ...placed,
            kind: "box",
            cover: down ? "down" : "sideways",
            size: down
              ? { length: size(along), width: size(across), depth: size(height) }
              : { width: size(along), depth: size(across), length: size(height) },
          },
    ];
  });
  const zero = { value: 0, unit: "in" };
  const withBuildUp = (area: PlainArea): PlainArea => {
    const buildUp = builtUp.get(area.id);
    return buildUp === undefined ? area : { ...area, buildUp };
  };
  return {
    scene: { ...scene, areas: scene.areas.map(withBuildUp) },
    json: {
      format: "underside-job",
      version: 1,
      settings: {
        job: {
          name: kind,
          system,
          edition: "us-2026",
          editionBy: "",
          tolerances: { tags: zero, decks: zero, plan: zero },
        },
      },
      sheets: {
        s0: sheet(userUnits[0], pick(random, [0, 90, 180, 270])),
        s1: sheet(userUnits[1], pick(random, [0, 90])),
      },
      storeys: { upper: { name: "Upper", floor: anyLength(random, floor) } },
      viewports,
      areas,
      elements: Object.fromEntries([...runs, ...racks, ...bars, ...boxes]),
      ...(storey && {
        storeyOutlines: {
          above: {
            label: "S-1",
            viewport,
            outline: storey.traced.map((spot) => onSheet(forElements, spot)),
            holes: [],
            above: { is: storey.makes === "floor-above" ? "occupied-storey" : "not-recorded" },
            reason: "",
            by: "",
          },
        },
      }),
    },
  };
}
