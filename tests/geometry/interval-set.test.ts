import { describe, expect, test } from "vitest";
import { intersect, normalise, subtract, totalLength, unite } from "../../src/geometry/interval-set.ts";

describe("interval sets", () => {
  test("normalise sorts, merges what overlaps or touches, drops what is reversed or not a number", () => {
    expect(
      normalise([
        [3, 4],
        [0, 1],
        [1, 2],
        [9, 8],
        [Number.NaN, 1],
        [3.5, 3.6],
      ]),
    ).toEqual([
      [0, 2],
      [3, 4],
    ]);
    expect(normalise([])).toEqual([]);
    expect(normalise([[1, 1]])).toEqual([[1, 1]]);
  });

  test("normalise leaves its input alone", () => {
    const list: [number, number][] = [
      [1, 2],
      [0, 1],
    ];
    normalise(list);
    expect(list).toEqual([
      [1, 2],
      [0, 1],
    ]);
  });

  test("unite", () => {
    expect(
      unite(
        [
          [0, 1],
          [4, 5],
        ],
        [[0.5, 2]],
        [[5, 6]],
      ),
    ).toEqual([
      [0, 2],
      [4, 6],
    ]);
    expect(unite()).toEqual([]);
  });

  test("intersect keeps shared points", () => {
    expect(
      intersect(
        [
          [0, 2],
          [4, 6],
        ],
        [[1, 5]],
      ),
    ).toEqual([
      [1, 2],
      [4, 5],
    ]);
    expect(intersect([[0, 1]], [[1, 2]])).toEqual([[1, 1]]);
    expect(intersect([[0, 1]], [[2, 3]])).toEqual([]);
    expect(
      intersect(
        [[0, 9]],
        [
          [1, 2],
          [3, 4],
          [8, 10],
        ],
      ),
    ).toEqual([
      [1, 2],
      [3, 4],
      [8, 9],
    ]);
  });

  test("subtract", () => {
    expect(
      subtract(
        [[0, 10]],
        [
          [2, 3],
          [5, 6],
        ],
      ),
    ).toEqual([
      [0, 2],
      [3, 5],
      [6, 10],
    ]);
    expect(subtract([[0, 1]], [[0, 1]])).toEqual([]);
    expect(subtract([[0, 1]], [[-1, 2]])).toEqual([]);
    expect(subtract([[0, 1]], [[1, 2]])).toEqual([[0, 1]]);
    expect(
      subtract(
        [
          [0, 1],
          [2, 3],
        ],
        [[0.5, 2.5]],
      ),
    ).toEqual([
      [0, 0.5],
      [2.5, 3],
    ]);
    expect(subtract([[0, 1]], [])).toEqual([[0, 1]]);
    expect(subtract([], [[0, 1]])).toEqual([]);
    expect(subtract([[1, 1]], [[0, 2]])).toEqual([]);
    expect(subtract([[1, 1]], [[2, 3]])).toEqual([[1, 1]]);
  });

  test("totalLength", () => {
    expect(
      totalLength([
        [0, 1],
        [2, 5],
      ]),
    ).toBe(4);
    expect(totalLength([])).toBe(0);
  });
});
