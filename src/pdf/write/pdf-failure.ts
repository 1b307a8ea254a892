import { ok, type Problem, type Result } from "../../units/problem.ts";

/** Carries a `Problem` out of nested reading and writing; only the functions at the border catch it. */
export class PdfFailure extends Error {
  constructor(readonly problem: Problem) {
    super(problem.code);
  }
}

/** Stops the work with a problem. `where` is a place such as `page 3` or `object 12`. */
export const failure = (code: string, where = "", params: Problem["params"] = {}): PdfFailure =>
  new PdfFailure({ code, where, params });

/** The file breaks its own rules at `where`; `what` completes "the file is damaged: …". */
export const damaged = (where: string, what: string): PdfFailure => failure("pdf.damaged", where, { where, what });

/** Runs work that stops with a `PdfFailure` and answers with a result. Anything else thrown is a bug and goes on. */
export const asResult = <T>(work: () => T): Result<T> => {
  try {
    return ok(work());
  } catch (error) {
    if (error instanceof PdfFailure) return { ok: false, problems: [error.problem] };
    throw error;
  }
};
