import { describe, expect, test } from "vitest";
import { ACTS, actOfKey } from "../../src/editor/acts.ts";
import type { ToolContext } from "../../src/editor/tool.ts";
import type { ToolState } from "../../src/editor/tools/tool-state.ts";
import { TOOL_NAMES, toolNamed } from "../../src/editor/tools/tools.ts";
import { hostActs } from "../../src/ui/host-acts.ts";
import { viewKeys } from "../../src/ui/sheet-keys.ts";
import { AtWork } from "../editor/at-work.ts";
import { furnished } from "../editor/sample-job.ts";

/** The acts of the application, as a list: none of them is run. */
const OWN = hostActs({} as never, {} as never, {} as never);

describe("every act", () => {
  test("has an id and a name of its own, so that typing its name finds it", () => {
    const all = [...ACTS, ...OWN];
    expect(new Set(all.map(({ id }) => id)).size).toBe(all.length);
    const names = all.map(({ name }) => name.toLowerCase());
    expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]);
  });

  test("that has a key has it for itself while the sheet has the focus", () => {
    const keys = [
      ...ACTS.flatMap(({ id, key }) => (key === undefined ? [] : [[key, id] as const])),
      ...OWN.flatMap(({ id, key }) => (key === undefined ? [] : [[key, id] as const])),
      ...Object.keys(viewKeys).map((key) => [key, `view ${key}`] as const),
    ];
    const shared = keys.filter(([key], i) => keys.findIndex(([other]) => other === key) !== i);
    expect(shared).toEqual([]);
  });

  test("of the application with a key works wherever the focus is: no key that types, and none of a text", () => {
    const typed = OWN.filter(({ key }) => key !== undefined && !/^(Ctrl\+[a-z]|Alt\+[a-z0-9]|F\d+)$/.test(key));
    expect(typed.map(({ id, key }) => `${id} ${key}`)).toEqual([]);
    const ofText = ["Ctrl+a", "Ctrl+c", "Ctrl+v", "Ctrl+x", "Ctrl+z", "Ctrl+y"];
    expect(OWN.filter(({ key }) => ofText.includes(key ?? "")).map(({ id }) => id)).toEqual([]);
  });

  test("of the sheet is what its key means there", () => {
    for (const act of ACTS) {
      if (act.key === undefined) continue;
      const ctrl = act.key.startsWith("Ctrl+");
      const key = ctrl ? act.key.slice(5) : act.key;
      expect(actOfKey({ key, ctrl, alt: false, shift: /^[A-Z]$/.test(key) })?.id, act.key).toBe(act.id);
    }
  });
});

describe("while a tool is in hand", () => {
  /** Keys a tool has for itself may be an act's only where the act is the tool's own, or these, which do the same. */
  const OWN_KEYS: Readonly<Record<string, readonly string[]>> = {
    edit: ["delete"],
    "outline-area": ["take-region"],
    "outline-storey": ["take-region"],
  };
  const letters = ACTS.filter(({ key }) => key !== undefined && !key.startsWith("Ctrl+"));

  test.each(TOOL_NAMES.map((name) => [name] as const))("%s takes no key from another act", (name) => {
    const work = new AtWork(furnished());
    for (const [sheet, selection] of [
      ["s-roof", { table: "areas", id: "a1" }],
      ["s-ceiling", { table: "elements", id: "r1" }],
    ] as const) {
      work.session.setSheet(sheet);
      work.session.select(selection);
      if (name !== "edit" && !work.session.start({ tool: name } as never)) continue;
      const { tool } = work.state;
      if (tool.tool !== name) continue;
      // In the middle of something the other acts wait, all but those that always work.
      const waiting = work.state.busy;
      const clashes = letters.filter(({ id, key, always, enabled }) => {
        if ((waiting && !always) || !enabled(work.state)) return false;
        const isOwn = id.startsWith(name) || OWN_KEYS[name]?.includes(id);
        return !isOwn && takes(work, tool, key!);
      });
      expect(clashes.map(({ id, key }) => `${key}: ${id}`)).toEqual([]);
    }
  });

  /** Whether the tool does something of its own with a key, so that the act of that key is not done. */
  function takes({ state, session }: AtWork, tool: ToolState, key: string): boolean {
    const { job, sheet, viewport, stage, selection, pixel } = state;
    const seen = { job, sheet, viewport, stage, selection, pixel, drawn: null };
    const context: ToolContext = {
      ...seen,
      reach: 8,
      place: null,
      room: null,
      stepOf: () => null,
      newId: session.newId,
    };
    const held = { shift: /^[A-Z]$/.test(key), alt: false, ctrl: false };
    return toolNamed(tool.tool).reduce(tool, { is: "key", key, ...held }, context).used !== false;
  }
});
