import { basename } from "node:path";
import { type Alignment, alignIssues } from "../../pdf/read/align-issues.ts";
import type { LinePieces } from "../../pdf/read/compare-linework.ts";
import { findGrid } from "../../pdf/read/find-grid.ts";
import { type IssueChanges, issueChanges } from "../../pdf/read/issue-changes.ts";
import type { IssueContent } from "../../pdf/read/issue-content.ts";
import { readSheet } from "../../pdf/read/read-linework.ts";
import { sha256 } from "../../store/sha256.ts";
import { readBytes } from "../files.ts";
import { accept } from "../load-job.ts";
import type { Outcome } from "../outcome.ts";
import { openDrawing } from "../pdf-engine.ts";
import { placeOf, rounded } from "../read-drawn.ts";
import { refuse } from "../refusal.ts";

/** What `read --against` may be told. */
export interface ReadAgainstOptions {
  /** The drawing with the issue before. */
  readonly against: string;
  /** Pages of the two, counted from 1; the first where left out. */
  readonly page?: number;
  readonly oldPage?: number;
  readonly password?: string;
}

/**
 * `read NEW.pdf --against OLD.pdf`: how a new issue of a sheet lies on the one before, and what only one of the two shows, as JSON. An alignment that
 * is not certain is refused with its reason.
 */
export async function readAgainstCommand(
  path: string,
  { against, page = 1, oldPage = 1, password }: ReadAgainstOptions,
): Promise<Outcome> {
  const [fresh, old] = [await readIssue(path, page, password), await readIssue(against, oldPage, password)];
  const alignment = accept(alignIssues(old.content, fresh.content));
  const changes = issueChanges(old.content, fresh.content, alignment.sim, []);
  return { out: asJson(fresh, old, alignment, changes), messages: [], status: 0 };
}

interface ReadIssue {
  readonly identity: { readonly file: string; readonly sha256: string; readonly page: number };
  readonly content: IssueContent;
}

async function readIssue(path: string, page: number, password: string | undefined): Promise<ReadIssue> {
  const bytes = await readBytes(path);
  const identity = { file: basename(path), sha256: await sha256(bytes), page };
  const plan = accept(await openDrawing(bytes, { name: path, password }));
  try {
    if (!plan.pages.some((one) => one.page === page)) refuse("cli.no-such-page", path, { page });
    const { linework, contents } = await readSheet(plan, page);
    const { texts } = contents;
    return { identity, content: { linework, grids: findGrid(linework, texts), texts } };
  } finally {
    await plan.close();
  }
}

function asJson(
  fresh: ReadIssue,
  old: ReadIssue,
  { sim, by, pairs, residualPt, share }: Alignment,
  { lines, texts }: IssueChanges,
): string {
  const read = {
    program: "underside",
    ...fresh.identity,
    against: old.identity,
    alignment: {
      by,
      scale: Number(sim.scale.toFixed(8)),
      turnDeg: rounded((sim.angle * 180) / Math.PI),
      shift: placeOf([sim.dx, sim.dy]),
      pairs,
      residualPt: Number(residualPt.toFixed(4)),
      share: share === null ? null : rounded(share),
    },
    lines: {
      both: lines.both.of.length,
      oldOnly: piecesOf(lines.oldOnly),
      newOnly: piecesOf(lines.newOnly),
    },
    texts: texts.changed.map(({ was, now, at }) => ({ was, now, at: placeOf(at) })),
  };
  return `${JSON.stringify(read, null, 2)}\n`;
}

/** Start x, y and end x, y of each piece, in the space of the new sheet. */
const piecesOf = ({ coords, of }: LinePieces): number[][] =>
  Array.from(of, (_, i) => [...coords.subarray(4 * i, 4 * i + 4)].map(rounded));
