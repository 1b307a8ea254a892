import type { DeckName } from "./building.ts";
import type { Router } from "./router.ts";

const south: DeckName = "sales-south";
const north: DeckName = "sales-north";

/** Where the home runs of the south parts turn south, clear of the skylights; feet. */
const DROPS_WEST = [14, 27, 40, 56, 66, 76, 92, 104] as const;
const DROPS_EAST = [129, 136, 145, 153, 161, 175] as const;

/** The south-west part: lights and cases of the sales floor, checkouts, canopy. */
export function routeSouthWest(router: Router): void {
  const add = router.add.bind(router, "sw");
  // Rows of lights, in two lengths each.
  for (const y of [4, 12, 20, 28, 33, 47, 54, 61])
    for (const [x0, x1] of [
      [4, 58],
      [62, 116],
    ] as const) {
      const hang = { deck: south, ...router.gap(8) };
      add({
        feet: [
          [x0 + router.between(0, 2, 0.5), y],
          [x1, y],
        ],
        size: "3/4",
        circuit: router.circuit("LA"),
        hang,
      });
    }
  // Home runs down the aisle from panel LA, turning south to their rows.
  for (const [i, x] of DROPS_WEST.entries()) {
    const y = 66 + i * 0.6;
    const size = i < 4 ? "1" : "3/4";
    const hang = { deck: north, ...router.gap(10), step: 0.5 };
    add({
      feet: [
        [2, y],
        [x, y],
        [x, 64.5],
      ],
      size,
      circuit: router.circuit("LA", "4#10, 1#10G"),
      hang,
    });
  }
  // From the home runs over the rows, down the slope with it.
  for (const [i, x] of DROPS_WEST.entries()) {
    const tight = i === 5 ? 1 : i === 6 ? 1.5 : router.between(4, 9, 0.5);
    add({
      feet: [
        [x, 63.5],
        [x, 3],
      ],
      size: "3/4",
      circuit: router.circuit("LA"),
      hang: { deck: south, gap: tight, way: "follow", step: 0.25 },
    });
  }
  // Level from the ridge: the roof comes down to them.
  for (const [i, x] of [24, 45, 86, 114].entries())
    add({
      feet: [
        [x, 62],
        [x, 6 + i * 2],
      ],
      size: i % 2 === 0 ? "3/4" : "1/2",
      circuit: router.circuit("LA"),
      hang: { deck: south, gap: 14.5 - i * 0.5, way: "start", basis: i === 3 ? "top" : "centre" },
    });
  // Power to the aisles, in pairs of columns.
  for (const x of [30, 54, 70, 90, 106])
    for (const [y0, y1] of [
      [22, 38],
      [46, 59],
    ] as const)
      add({
        feet: [
          [x, y1],
          [x, y0],
        ],
        size: "1/2",
        circuit: router.circuit("LA"),
        hang: { aff: 168 + router.between(0, 12, 2) },
      });
  // Checkouts: one trunk and a cable to each.
  add({
    feet: [
      [28, 13],
      [114, 13],
    ],
    size: "1",
    circuit: router.circuit("LA", "6#10, 2#10G"),
    hang: { aff: 126 },
  });
  for (let i = 0; i < 9; i++) {
    const x = 33 + i * 9;
    add({
      feet: [
        [x, 12.6],
        [x, 8],
      ],
      type: "mc",
      size: "12/2",
      circuit: router.circuit("LA", ""),
      hang: { aff: 124 },
    });
  }
  // Cold cases along the west wall.
  for (let i = 0; i < 3; i++)
    for (const [y0, y1] of [
      [10, 30],
      [35, 55],
    ] as const)
      add({
        feet: [
          [6 + i * 1.5, y1],
          [6 + i * 1.5, y0],
        ],
        type: i === 2 ? "mc" : "emt",
        size: i === 2 ? "10/3" : "3/4",
        circuit: router.circuit("RA", i === 2 ? "" : "3#10, 1#10G"),
        hang: { aff: 156 + i * 4 },
      });
  // Freezers at the back of the first bays, on cable.
  for (let i = 0; i < 6; i++)
    add({
      feet: [
        [16 + i * 2, 24],
        [16 + i * 2, 30],
      ],
      type: "mc",
      size: "10/3",
      circuit: router.circuit("RA", ""),
      hang: { aff: 140 },
    });
  // Skylights: sensors across the openings, one up inside.
  for (const x of [20, 50])
    add({
      feet: [
        [x - 6, 40],
        [x + 6, 40],
      ],
      size: "1/2",
      circuit: router.circuit("LA"),
      hang: { deck: south, gap: 5 },
    });
  add({
    feet: [
      [79.2, 40],
      [80.8, 40],
    ],
    size: "1/2",
    circuit: router.circuit("LA"),
    hang: { deck: south, gap: -8 },
    remark: "IN SKYLIGHT",
  });
  add({
    feet: [
      [100, 66],
      [100, 58],
    ],
    size: "3/4",
    circuit: router.circuit("LA"),
    hang: "not-given",
  });
  // Canopy: through the front wall, then along its boards.
  add({
    feet: [
      [90, 8],
      [90, -2],
    ],
    size: "3/4",
    circuit: router.circuit("LA"),
    hang: { aff: 124 },
  });
  add({
    feet: [
      [77, -3],
      [103, -3],
    ],
    size: "1/2",
    circuit: router.circuit("LA"),
    hang: { deck: "canopy", gap: 4 },
  });
  add({
    feet: [
      [77, -7],
      [103, -7],
    ],
    type: "mc",
    size: "12/2",
    circuit: router.circuit("LA", ""),
    hang: { deck: "canopy", gap: 0.75, step: 0.25, basis: "top" },
  });
  add({
    feet: [
      [77, -11],
      [103, -11],
    ],
    size: "1/2",
    circuit: router.circuit("LA"),
    hang: { deck: "canopy", gap: 1.5, step: 0.125, basis: "top", plusMinus: 0.25 },
  });
}

/** The south-east part: the rest of the sales floor, pharmacy and offices under their own low roof. */
export function routeSouthEast(router: Router): void {
  const add = router.add.bind(router, "se");
  for (const y of [4, 12, 20, 28, 33, 47, 54, 61]) {
    const hang = { deck: south, ...router.gap(8) };
    add({
      feet: [
        [122 + router.between(0, 2, 0.5), y],
        [176, y],
      ],
      size: "3/4",
      circuit: router.circuit("LC"),
      hang,
    });
  }
  for (const [i, x] of DROPS_EAST.entries()) {
    const y = 66 + i * 0.6;
    const hang = { deck: north, ...router.gap(10), step: 0.5 };
    add({
      feet: [
        [178, y],
        [x, y],
        [x, 64.5],
      ],
      size: i < 3 ? "1" : "3/4",
      circuit: router.circuit("LC", "4#10, 1#10G"),
      hang,
    });
  }
  for (const [i, x] of DROPS_EAST.entries()) {
    add({
      feet: [
        [x, 63.5],
        [x, 3],
      ],
      size: "3/4",
      circuit: router.circuit("LC"),
      hang: {
        deck: south,
        gap: i === 2 ? 0.75 : router.between(4, 9, 0.5),
        way: "follow",
        step: 0.25,
        from: "project",
      },
    });
  }
  for (const [i, x] of [133, 165].entries())
    add({
      feet: [
        [x, 62],
        [x, 8],
      ],
      size: "1/2",
      circuit: router.circuit("LC"),
      hang: { deck: south, gap: 14 + i * 2, way: "start" },
    });
  for (const x of [124, 143, 157, 173])
    for (const [y0, y1] of [
      [22, 38],
      [46, 59],
    ] as const)
      add({
        feet: [
          [x, y1],
          [x, y0],
        ],
        size: "1/2",
        circuit: router.circuit("LC"),
        hang: { aff: 170 + router.between(0, 10, 2) },
      });
  // The step at grid 7: along the edge of the low roof, under the high one.
  add({
    feet: [
      [180 - 1 / 12, 8],
      [180 - 1 / 12, 30],
    ],
    size: "3/4",
    circuit: router.circuit("LC"),
    hang: { aff: 174.75 },
    remark: "AT EDGE OF LOW ROOF",
  });
  // Pharmacy and offices: rows east with the slope, and level across it.
  for (let i = 0; i < 9; i++) {
    const y = 4 + i * 7;
    const hang =
      i % 4 === 3
        ? ({ deck: "pharmacy", gap: i === 3 ? 13.75 : 16, way: "start", basis: "bottom" } as const)
        : ({ deck: "pharmacy", gap: i === 4 ? 1.375 : router.between(4, 8, 0.5), way: "follow", step: 0.125 } as const);
    add({
      feet: [
        [184, y],
        [236, y],
      ],
      size: "3/4",
      circuit: router.circuit("LC"),
      hang,
    });
  }
  for (const x of [186, 194, 203, 212, 221, 230])
    for (const [y0, y1] of [
      [6, 28],
      [36, 58],
    ] as const) {
      const hang = { deck: "pharmacy", ...router.gap(6), from: router.chance() < 0.3 ? "below-deck" : "aff" } as const;
      add({
        feet: [
          [x, y1],
          [x, y0],
        ],
        size: "1/2",
        circuit: router.circuit("LC"),
        hang,
      });
    }
  for (const [i, y] of Array.from({ length: 12 }, (_, k) => [k % 6, k < 6 ? 14.5 : 40] as const))
    add({
      feet: [
        [190 + i * 8, y],
        [190 + i * 8, y + 4.5],
      ],
      type: "mc",
      size: "12/2",
      circuit: router.circuit("LC", ""),
      hang: { aff: 122 },
    });
  const rmc = (y: number, gap: number, steelFittings: boolean | null, remark: string) =>
    add({
      feet: [
        [183, y],
        [236, y],
      ],
      type: "rmc",
      size: "1",
      circuit: router.circuit("LC", "3#8, 1#10G"),
      hang: { deck: "pharmacy", gap, way: "follow", step: 0.125 },
      facts: { steelFittings },
      remark,
    });
  rmc(50, 0.25, true, "STEEL FITTINGS");
  rmc(56, 0.25, true, "STEEL FITTINGS");
  rmc(62, 0.5, null, "");
  add({
    feet: [
      [200, 62.8],
      [226, 62.8],
    ],
    size: "3/4",
    circuit: router.circuit("LC"),
    hang: "not-given",
  });
}
