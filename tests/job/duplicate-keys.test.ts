import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { duplicateKeys } from "../../src/job/duplicate-keys.ts";

describe("keys that stand twice", () => {
  test.each([
    ['{"a": 1, "a": 2}', ["a"]],
    ['{"a": {"b": 1, "c": {}, "b": []}}', ["a/b"]],
    ['{"a": [{"x": 1}, {"x": 1, "y": "{,:", "x": 2}]}', ["a/1/x"]],
    ['{"a": 1, "\\u0061": 2}', ["a"]],
    ['{"a": 1, "a": 1, "a": 1}', ["a", "a"]],
    ['{"a": {"k": 1}, "b": {"k": 1}}', []],
    ['["a", "a", {"a": "a"}]', []],
    ['{"a": "a\\"b", "a\\"b": "a"}', []],
    ["[]", []],
    ['"a"', []],
  ] as const)("in %s", (text, paths) => {
    expect(duplicateKeys(text)).toEqual(paths);
  });

  test("are never found in what JSON.stringify writes", () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        expect(duplicateKeys(JSON.stringify(value))).toEqual([]);
      }),
    );
  });

  test("are found wherever one is put in", () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string(), fc.jsonValue(), { minKeys: 1 }), (record) => {
        const [first] = Object.keys(record);
        const text = JSON.stringify([record]).replace(/\}\]$/, () => `, ${JSON.stringify(first)}: null}]`);
        expect(duplicateKeys(text)).toEqual([`0/${first}`]);
      }),
    );
  });
});
