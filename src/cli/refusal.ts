import type { Problem } from "../units/problem.ts";

/** Unusable input or usage: nothing was written, the problems are told and the status is 2. */
export class Refusal extends Error {
  readonly problems: readonly Problem[];

  constructor(problems: readonly Problem[]) {
    super(problems.map(({ code }) => code).join(", "));
    this.name = "Refusal";
    this.problems = problems;
  }
}

/** Throws a refusal with one problem. */
export function refuse(code: string, where = "", params: Problem["params"] = {}): never {
  throw new Refusal([{ code, where, params }]);
}
