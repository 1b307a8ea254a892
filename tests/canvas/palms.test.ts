import { describe, expect, test } from "vitest";
import { type Contact, Palms } from "../../src/canvas/palms.ts";

const touch = (pointerId: number, more: Partial<Contact> = {}): Contact => ({
  pointerId,
  pointerType: "touch",
  width: 24,
  height: 24,
  timeStamp: 0,
  ...more,
});

describe("a hand on the screen", () => {
  test("is a broad touch, and stays one however small it becomes", () => {
    const palms = new Palms();
    expect(palms.has(touch(1))).toBe(false);
    expect(palms.has(touch(2, { height: 90 }))).toBe(true);
    expect(palms.has(touch(2))).toBe(true);
    expect(palms.lifted(2)).toBe(true);
    expect(palms.has(touch(2))).toBe(false);
    expect(palms.lifted(1)).toBe(false);
  });

  test("is any touch while a pen touches or is near, and a second after it was heard of last", () => {
    const palms = new Palms();
    palms.pen("near", { timeStamp: 1000 });
    expect(palms.has(touch(1, { timeStamp: 2000 }))).toBe(true);
    expect(palms.has(touch(2, { timeStamp: 2001 }))).toBe(false);
    palms.pen("down", { timeStamp: 3000 });
    expect(palms.has(touch(3, { timeStamp: 60_000 }))).toBe(true);
    palms.pen("away", { timeStamp: 60_001 });
    expect(palms.has(touch(4, { timeStamp: 60_002 }))).toBe(false);
  });

  test("is never a mouse or a pen", () => {
    const palms = new Palms();
    palms.pen("down", { timeStamp: 0 });
    expect(palms.has(touch(1, { pointerType: "mouse", width: 200 }))).toBe(false);
    expect(palms.has(touch(1, { pointerType: "pen", width: 200 }))).toBe(false);
  });
});
