import type { Point2 } from "../geometry/point.ts";
import { fail, ok, type Result } from "../units/problem.ts";
import { actOfKey } from "./acts.ts";
import type { Driver } from "./driver.ts";
import { isPositionText, parsePosition, placeOf } from "./parse-position.ts";
import { parseTravel, placeOfTravel, type Travel } from "./parse-travel.ts";
import type { Session } from "./session.ts";
import type { Held, ToolKey } from "./tool-event.ts";
import { viewportAt } from "./viewport-at.ts";

const NOTHING_HELD = { shift: false, alt: false, ctrl: false } as const;

/** Turns keys and typed text into points and words for the tool in hand: everything a pointer can do, without one. */
export class KeysToEvents {
  readonly #driver: Driver;

  constructor(driver: Driver) {
    this.#driver = driver;
  }

  /** Whether the key meant something here. */
  take(event: ToolKey, session: Session): boolean {
    const driver = this.#driver;
    if (event.ctrl) return this.#act(event, session);
    if (event.key === "Escape") return driver.cancel();
    if (event.key === "Enter") return this.#enter(event);
    const arrow = driver.stepOf(event.key, event);
    if (arrow) return this.#used({ ...event, is: "key" }) || this.#crosshair(arrow, event.alt);
    driver.settle();
    if (event.key === " ") return this.#put();
    if (event.key === "Backspace") return this.#used({ is: "back" });
    return this.#key(event) || ((!driver.state.busy || actOfKey(event)?.always === true) && this.#act(event, session));
  }

  #used(event: Parameters<Driver["feed"]>[0]): boolean {
    const { used } = this.#driver.feed(event);
    return used !== false;
  }

  /** A key of the tool's own. Where it put points, the crosshair goes along to the last, so that Enter means that was all. */
  #key(event: ToolKey): boolean {
    const driver = this.#driver;
    const before = driver.points().at(-1);
    if (!this.#used({ ...event, is: "key" })) return false;
    const last = driver.points().at(-1);
    if (driver.state.crosshair && last && last !== before) this.#stand(last);
    return true;
  }

  #stand(at: Point2): void {
    const driver = this.#driver;
    driver.patch({ crosshair: at, aim: driver.aimAt(at, { shift: false, alt: false }) });
  }

  #act(event: ToolKey, session: Session): boolean {
    const found = actOfKey(event);
    if (!found?.enabled(this.#driver.state)) return false;
    found.run(session);
    return true;
  }

  #crosshair([dx, dy]: Point2, fine: boolean): boolean {
    const driver = this.#driver;
    const { sheet, job, crosshair } = driver.state;
    const view = sheet === null ? undefined : job.sheets[sheet]?.view;
    if (!view) return false;
    const [x, y] = crosshair ?? driver.crosshairStart();
    const within = (n: number, low: number, high: number) => Math.min(Math.max(n, low), high);
    const at: Point2 = [within(x + dx, view[0], view[2]), within(y + dy, view[1], view[3])];
    driver.patch({ crosshair: at, aim: driver.aimAt(at, { shift: false, alt: fine }), notice: null });
    return true;
  }

  /** Enter: puts a point at the crosshair, or, where the last point already is, says that was all. */
  #enter(held: Held): boolean {
    const driver = this.#driver;
    const { aim, crosshair } = driver.state;
    const last = driver.points().at(-1);
    const there = crosshair && (aim?.at ?? crosshair);
    const again = there && last && last[0] === there[0] && last[1] === there[1];
    return !driver.moving && there && !again ? this.#put(held) : this.#used({ is: "finish" });
  }

  #put({ shift }: Pick<Held, "shift"> = NOTHING_HELD): boolean {
    const driver = this.#driver;
    const { aim, crosshair, sheet } = driver.state;
    if (!crosshair) return false;
    const at = aim?.at ?? crosshair;
    const before = driver.points().length;
    driver.feed({ ...NOTHING_HELD, shift, is: "point", at });
    const many = driver.points().length > before + 1;
    // The crosshair stands where the point went, or the last of many, unless the next one is wanted on another sheet.
    if (driver.state.sheet === sheet) this.#stand(many ? (driver.points().at(-1) ?? at) : at);
    return true;
  }

  typed(text: string): Result<void> {
    const driver = this.#driver;
    const { asks, job } = driver.state;
    if (asks.length === 0) driver.settle();
    // Where nothing but words is asked for, whatever is typed is words.
    if (isPositionText(text) && (!asks.includes("words") || asks.includes("position")))
      return this.#typedPosition(text);
    const travel = asks.includes("length") ? parseTravel(text, job.settings.job.system) : null;
    if (travel) return this.#typedTravel(travel);
    const { problem, used } = driver.feed({ is: "typed", text });
    if (used === false) return this.#refused(fail("tool.nothing-to-type", "", { text: text.trim() }));
    return problem ? { ok: false, problems: [problem] } : ok(undefined);
  }

  #typedPosition(text: string): Result<void> {
    const driver = this.#driver;
    const { job, sheet, viewport, crosshair, asks } = driver.state;
    if (sheet === null) return this.#refused(fail("tool.no-sheet"));
    const position = parsePosition(text, job.settings.job.system);
    if (!position.ok) return this.#refused(position);
    const from = driver.points().at(-1) ?? crosshair;
    // A thing has the scale of the viewport its first point lies in, wherever it goes from there.
    const scaled = (driver.tool.acrossSheets ? undefined : driver.points()[0]) ?? from;
    const place = placeOf(job, scaled ? viewportAt(job, sheet, scaled, viewport) : viewport, from, position.value);
    if (!place.ok) return this.#refused(place);
    // A tool that wants no position just has the crosshair brought there.
    const { problem } = asks.includes("position") ? driver.feed({ ...NOTHING_HELD, is: "point", at: place.value }) : {};
    if (driver.state.sheet === sheet)
      driver.patch({ crosshair: place.value, aim: driver.aimAt(place.value, { shift: false, alt: true }) });
    return problem ? { ok: false, problems: [problem] } : ok(undefined);
  }

  /** The next point of a line, so far on from the last in the direction that is pointed at, locked or said. */
  #typedTravel(travel: Result<Travel>): Result<void> {
    const driver = this.#driver;
    if (!travel.ok) return this.#refused(travel);
    const { job, sheet, viewport } = driver.state;
    const points = driver.points();
    const own = sheet === null || !points[0] ? viewport : viewportAt(job, sheet, points[0], viewport);
    const place = placeOfTravel(job, own, { points, aim: driver.pointed }, travel.value);
    if (!place.ok) return this.#refused(place);
    const { problem } = driver.feed({ ...NOTHING_HELD, is: "point", at: place.value });
    if (problem) return { ok: false, problems: [problem] };
    if (driver.state.sheet === sheet) this.#stand(place.value);
    return ok(undefined);
  }

  #refused(failed: Extract<Result<void>, { ok: false }>): Result<void> {
    this.#driver.patch({ notice: failed.problems[0] ?? null });
    return failed;
  }
}
