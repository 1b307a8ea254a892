import type { MirrorItem } from "./MirrorList.tsx";

/** A line that is put into words when it is first read: of a long list most never are. */
class LateLine implements MirrorItem {
  #line: Omit<MirrorItem, "id"> | undefined;

  constructor(
    readonly id: string,
    readonly from: readonly unknown[],
    private readonly make: () => Omit<MirrorItem, "id">,
  ) {}

  private get line(): Omit<MirrorItem, "id"> {
    this.#line ??= this.make();
    return this.#line;
  }
  get name() {
    return this.line.name;
  }
  get mark() {
    return this.line.mark;
  }
  get end() {
    return this.line.end;
  }
  get more() {
    return this.line.more;
  }
  get said() {
    return this.line.said ?? this.line.name;
  }
}

const lines = new WeakMap<object, LateLine>();

/** The line of a record or finding: the same object as long as what else it is made `from` is the same, so that it need not be drawn again. */
export function lineOf(
  record: object,
  id: string,
  from: readonly unknown[],
  make: () => Omit<MirrorItem, "id">,
): MirrorItem {
  const known = lines.get(record);
  if (known && known.id === id && from.every((part, i) => part === known.from[i])) return known;
  const line = new LateLine(id, from, make);
  lines.set(record, line);
  return line;
}
