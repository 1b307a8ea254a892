import { FOOT } from "../plan-place.ts";
import { type DeckName, GRID_5, GRID_E } from "./building.ts";
import type { Router } from "./router.ts";

const sales: DeckName = "sales-north";

/** The north-west part: the sales floor round its valley, and the stock room. */
export function routeNorthWest(router: Router): void {
  const add = router.add.bind(router, "nw");
  for (const y of [76, 84, 92, 100, 112, 118, 124])
    for (const [x0, x1] of [
      [4, 58],
      [62, 116],
    ] as const) {
      const hang = { deck: sales, ...router.gap(7), from: y > 100 ? "project" : "aff" } as const;
      add({
        feet: [
          [x0, y],
          [x1 - router.between(0, 2, 0.5), y],
        ],
        size: "3/4",
        circuit: router.circuit("LB"),
        hang,
      });
    }
  for (let i = 0; i < 8; i++) {
    const x = 13 + i * 13;
    const y = 104 + i * 0.6;
    const hang = { deck: sales, ...router.gap(10), step: 0.5 };
    add({
      feet: [
        [2, y],
        [x, y],
        [x, 110],
      ],
      size: i < 4 ? "1" : "3/4",
      circuit: router.circuit("LB", "4#10, 1#10G"),
      hang,
    });
  }
  // Across the valley: level below its low point, or straight from side to side.
  for (const [i, x] of [10, 22, 30, 38, 51, 66, 82, 90, 98, 111].entries()) {
    const straight = i === 2 || i === 4 || i === 7;
    const hang = straight
      ? ({ deck: sales, gap: i === 4 ? 7.5 : 10.25, way: "start", basis: "top" } as const)
      : ({ deck: sales, gap: i === 8 ? 1.625 : router.between(4, 10, 0.5), step: 0.25 } as const);
    add({
      feet: [
        [x, 122],
        [x, 75],
      ],
      size: i % 3 === 0 ? "1/2" : "3/4",
      circuit: router.circuit("LB"),
      hang,
    });
  }
  // Stock room: flat deck, lights in rows, power to the racking between.
  for (const y of [132, 138, 144, 151, 157])
    for (const [x0, x1] of [
      [4, 58],
      [62, 116],
    ] as const) {
      const hang = { deck: "stock", ...router.gap(8) } as const;
      add({
        feet: [
          [x0, y],
          [x1, y],
        ],
        size: "3/4",
        circuit: router.circuit("SB"),
        hang,
      });
    }
  for (const [i, x] of [12, 24, 36, 48, 72, 84, 96, 108].entries()) {
    const hang = { deck: "stock", ...router.gap(5), from: i % 3 === 0 ? "below-deck" : "aff" } as const;
    add({
      feet: [
        [x, 155],
        [x, 134],
      ],
      size: "1/2",
      circuit: router.circuit("SB"),
      hang,
    });
  }
  for (const [i, x] of [16, 28, 100].entries())
    add({
      feet: [
        [x, 156],
        [x, 133],
      ],
      type: i === 2 ? "imc" : "rmc",
      size: "1-1/4",
      circuit: router.circuit("SB", "3#4, 1#8G"),
      hang: { deck: "stock", gap: 0.5, basis: "top", step: 0.125 },
      facts: { steelFittings: i === 1 ? null : true },
      remark: i === 1 ? "" : "STEEL FITTINGS",
    });
  // Cold cases under the valley, on cable from the home runs.
  for (let i = 0; i < 8; i++)
    add({
      feet: [
        [34 + i * 2, 86],
        [34 + i * 2, 94 - (i % 3)],
      ],
      type: "mc",
      size: "10/3",
      circuit: router.circuit("RB", ""),
      hang: { aff: 144 + (i % 2) * 4 },
    });
  // The hatch: along its edge, in the opening.
  add({
    feet: [
      [64.5, 143],
      [64.5, 148],
    ],
    size: "3/4",
    circuit: router.circuit("SB"),
    hang: { deck: "stock", gap: -1, step: 0.25 },
    remark: "AT HATCH",
  });
  // Down a column to the compactor and the charger: two tags at one place.
  for (const x of [42, 90])
    add({
      feet: [
        [x, 129.5],
        [x, 141],
        [x + 8, 141],
      ],
      size: "1",
      circuit: router.circuit("SB", "3#8, 1#10G"),
      hang: { aff: 150 },
    });
  add({
    feet: [
      [54, 146],
      [54, 157],
    ],
    size: "1/2",
    circuit: router.circuit("SB"),
    hang: { deck: "stock", gap: -0.9, step: 0.125 },
    facts: { inConcrete: false },
    remark: "IN FLUTE",
  });
  add({
    feet: [
      [112, 146],
      [112, 157],
    ],
    size: "3/4",
    circuit: router.circuit("SB"),
    hang: "not-given",
  });
}

/** The north-east part: main switchboard and feeders, bakery, mezzanine, receiving. */
export function routeNorthEast(router: Router): void {
  const add = router.add.bind(router, "ne");
  for (const y of [76, 84, 92, 100, 112, 118]) {
    const hang = { deck: sales, ...router.gap(7) };
    add({
      feet: [
        [123, y],
        [176 - router.between(0, 2, 0.5), y],
      ],
      size: "3/4",
      circuit: router.circuit("LD"),
      hang,
    });
  }
  // Feeders west from the switchboard, side by side along grid E.
  for (let i = 0; i < 4; i++)
    add({
      feet: [
        [178, 122.4 + i * 0.8],
        [124, 122.4 + i * 0.8],
      ],
      size: i < 2 ? "2" : "1-1/2",
      circuit: `4#${i < 2 ? "4/0" : "1/0"}, 1#4G  MDP-${i + 1}`,
      hang: { deck: sales, gap: i === 0 ? 1.25 : 6, basis: i === 1 ? "bottom" : "centre", step: 0.25 },
    });
  for (const [i, x] of [128, 139, 150, 161, 172].entries())
    add({
      feet: [
        [x, 120],
        [x, 75],
      ],
      size: "3/4",
      circuit: router.circuit("LD"),
      hang: i === 2 ? { deck: sales, gap: 9.75, way: "start" } : { deck: sales, gap: router.between(5, 9, 0.5) },
    });
  // Bakery: falls north; ovens on cable.
  for (const [i, y] of [131, 136, 141, 151, 157].entries()) {
    const hang = { deck: "bakery", ...router.gap(6) } as const;
    add({
      feet: [
        [123, y],
        [i === 2 ? 158 : 177, y],
      ],
      size: "3/4",
      circuit: router.circuit("BK"),
      hang,
    });
  }
  for (const [i, x] of [126, 134, 142, 150, 172].entries())
    add({
      feet: [
        [x, 130],
        [x, 158],
      ],
      size: "1/2",
      circuit: router.circuit("BK"),
      hang: { deck: "bakery", gap: i === 1 ? 4.25 : 7, way: i === 1 ? "start" : "follow", step: 0.25 },
    });
  for (let i = 0; i < 8; i++)
    add({
      feet: [
        [127 + i * 6, 145],
        [127 + i * 6, 149],
      ],
      type: "mc",
      size: "10/3",
      circuit: router.circuit("BK", ""),
      hang: { aff: 140 },
    });
  add({
    feet: [
      [159.8, 141],
      [159.8, 151],
    ],
    size: "3/4",
    circuit: router.circuit("BK"),
    hang: { deck: "bakery", gap: 1, step: 0.125 },
    remark: "AT SHAFT",
  });
  add({
    feet: [
      [163, 141],
      [163, 151],
    ],
    size: "3/4",
    circuit: router.circuit("BK"),
    hang: { deck: "bakery", gap: 3, step: 0.125 },
    remark: "UNDER SHAFT",
  });
  for (const [i, y] of [133, 154].entries())
    add({
      feet: [
        [124, y],
        [176, y],
      ],
      type: "rmc",
      size: "1-1/2",
      circuit: router.circuit("BK", "3#2, 1#6G"),
      hang: { deck: "bakery", gap: 0.375, basis: "top", step: 0.125 },
      facts: { steelFittings: i === 0 ? true : null },
      remark: i === 0 ? "STEEL FITTINGS" : "",
    });
  // Under the training room's floor, and under the mechanical mezzanine.
  for (const [i, y] of [75, 79, 83, 87, 91, 94].entries()) {
    add({
      feet: [
        [183, y],
        [208, y],
      ],
      size: i < 3 ? "1" : "3/4",
      circuit: router.circuit("MD"),
      hang: { deck: "training", gap: i < 3 ? 0.5 : 4 },
    });
    add({
      feet: [
        [212, y],
        [237, y],
      ],
      size: "3/4",
      circuit: router.circuit("MD"),
      hang: { deck: "mezzanine", gap: i < 4 ? 0.75 + i * 0.125 : 12, step: 0.125 },
    });
  }
  // On the mezzanine, under its own roof.
  for (const [i, y] of [77, 81, 85, 89].entries()) {
    add({
      feet: [
        [214, y],
        [236, y],
      ],
      size: "1-1/4",
      type: i === 3 ? "rmc" : "emt",
      circuit: router.circuit("RT", "3#6, 1#10G"),
      hang: { deck: "penthouse", gap: i === 2 ? 1 : 10, from: "mezzanine", step: 0.25 },
      facts: i === 3 ? { steelFittings: true } : {},
    });
  }
  // The training room's own lights, on the same level.
  for (const y of [70, 76, 82, 88, 93])
    add({
      feet: [
        [184, Math.max(y, 73.5)],
        [207, Math.max(y, 73.5)],
      ],
      size: "1/2",
      circuit: router.circuit("TR"),
      hang: { deck: "penthouse", gap: 21 + router.between(0, 4, 1), from: "mezzanine" },
    });
  for (const x of [216, 222, 228])
    add({
      feet: [
        [x, 74],
        [x, 92],
      ],
      size: "3/4",
      circuit: router.circuit("RT", "3#8, 1#10G"),
      hang: { deck: "penthouse", gap: 14, from: "mezzanine" },
    });
  // Receiving: deep deck, level.
  for (const y of [100, 107, 114, 121, 128, 135, 142, 149, 156]) {
    const hang = { deck: "receiving", ...router.gap(7) } as const;
    add({
      feet: [
        [184, y],
        [234, y],
      ],
      size: "3/4",
      circuit: router.circuit("RV"),
      hang,
    });
  }
  for (let i = 0; i < 4; i++)
    add({
      feet: [
        [182.5 + i * 0.8, 97.5],
        [182.5 + i * 0.8, 150 - i * 6],
      ],
      size: i < 2 ? "2" : "1-1/2",
      circuit: `4#${i < 2 ? "3/0" : "2"}, 1#6G  MDP-${i + 5}`,
      hang: { deck: "receiving", gap: 6 + i, basis: "centre" },
    });
  for (const [i, x] of [190, 200, 210, 220, 228].entries()) {
    const hang = { deck: "receiving", ...router.gap(5), from: i % 2 === 0 ? "below-deck" : "project" } as const;
    add({
      feet: [
        [x, 154],
        [x, 102],
      ],
      size: "1/2",
      circuit: router.circuit("RV"),
      hang,
    });
  }
  for (const [y0, y1] of [
    [100, 118],
    [122, 138],
    [141, 157],
  ] as const)
    for (const x of [236.5, 238])
      add({
        feet: [
          [x, y0],
          [x, y1],
        ],
        type: x > 237 ? "lfmc" : "emt",
        size: "3/4",
        circuit: router.circuit("RV", "3#10, 1#10G"),
        hang: { aff: 150 },
      });
  for (const [i, y] of [104, 146].entries())
    add({
      feet: [
        [186, y],
        [232, y],
      ],
      type: "rmc",
      size: "2",
      circuit: router.circuit("RV", "3#1, 1#6G"),
      hang: { deck: "receiving", gap: 0.25, basis: "top", step: 0.125 },
      facts: { steelFittings: true },
      remark: i === 0 ? "STEEL FITTINGS" : "STEEL FITTINGS",
    });
  for (const [y0, y1] of [
    [110, 120],
    [130, 140],
  ] as const)
    add({
      feet: [
        [205, y0],
        [205, y1],
      ],
      size: "3/4",
      circuit: router.circuit("RV"),
      hang: { deck: "receiving", gap: -1.75, step: 0.125 },
      facts: { inConcrete: false },
      remark: "IN FLUTE",
    });
  add({
    feet: [
      [196, 152.5],
      [228, 152.5],
    ],
    size: "3/4",
    circuit: router.circuit("RV"),
    hang: "not-given",
  });
  // A wireway over the bakery's benches, wider than it is high, level under a roof that falls across it.
  add({
    feet: [
      [138, 139],
      [157, 139],
    ],
    type: "wireway",
    size: "6x4",
    circuit: router.circuit("BK", "12#10"),
    hang: { aff: 187 },
    more: { section: { width: 6, height: 4 } },
  });
  // From panel BK round the column at the corner of the low stock room roof, at that roof's own level: its bend comes nearer to that corner than either leg.
  add({
    feet: [
      [(GRID_5 + 10) / FOOT, 133],
      [(GRID_5 + 10) / FOOT, (GRID_E - 13) / FOOT],
      [(GRID_5 - 9) / FOOT, (GRID_E - 13) / FOOT],
    ],
    size: "2",
    circuit: router.circuit("BK", "3#1, 1#6G"),
    hang: { aff: 168 },
    remark: `BENDS 16" RADIUS`,
    more: { bends: 16 },
  });
  // To the fan of a door: held at both ends, slack between.
  add({
    feet: [
      [214, 110.5],
      [219, 110.5],
    ],
    type: "fmc",
    size: "1/2",
    circuit: router.circuit("RV"),
    hang: { aff: 190.5 },
    remark: `SLACK 6"`,
    more: { droop: 6 },
  });
  // To the rooftop unit: along under the deck, then straight up through it.
  add({
    feet: [
      [186, 144.5],
      [203, 144.5],
      [203, 144.5],
    ],
    size: "1",
    circuit: router.circuit("RV", "3#8, 1#10G"),
    hang: { affs: [180, 180, 208] },
    remark: "UP TO RTU-7",
  });
}
