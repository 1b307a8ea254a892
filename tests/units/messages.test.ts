import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { unitsMessage, unitsMessages } from "../../src/units/messages.ts";
import { parseLength } from "../../src/units/parse-length.ts";

const code = /"((?:length|scale|slope)\.[a-z-]+)"/g;

describe("units messages", () => {
  it("word every code that the folder can give, and none that it cannot", () => {
    const given = readdirSync("src/units")
      .filter((file) => file !== "messages.ts")
      .flatMap((file) => [...readFileSync(`src/units/${file}`, "utf8").matchAll(code)].map((match) => match[1]!));
    expect([...new Set(given)].sort()).toEqual(Object.keys(unitsMessages).sort());
  });
  it("say what was written", () => {
    const wrong = parseLength(`12'-14"`);
    expect(!wrong.ok && unitsMessage(wrong.problems[0]!)).toBe(
      `"12'-14"" has 14 inches after the feet; at most 11 and a fraction fit. Check the number, or carry the foot.`,
    );
    expect(unitsMessage({ code: "job.unknown-key", where: "", params: {} })).toBeUndefined();
    expect(unitsMessage({ code: "toString", where: "", params: {} })).toBeUndefined();
  });
});
