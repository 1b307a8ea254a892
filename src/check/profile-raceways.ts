import { type CheckResult, VERDICTS, type Verdict } from "./finding.ts";
import type { ProfileLine, ProfileStretch } from "./profile-line.ts";
import { memberIn, type Subject } from "./subject.ts";
import { axisLines, radiusOf, stationsAlike, type Unrolled, unroll } from "./unroll.ts";

/** One of the raceways of a rack beside the one a profile shows in full. Stations are those of the one shown, at the same place along the rack. */
export interface ProfileRaceway {
  /** What findings about it name: "2". */
  readonly member: string;
  readonly label: string;
  /** How far its surface is from its axis; 0 where its size or elevation is not known. */
  readonly radiusIn: number;
  readonly axis: readonly ProfileLine[];
  readonly stretches: readonly ProfileStretch[];
  /** The worst the check says of it, and its least distance to a deck; undefined and null where it says nothing. */
  readonly verdict: Verdict | undefined;
  readonly leastIn: number | null;
}

/** The stretches of what one of the findings of an element are about: of it as a whole, or of one of its members. */
export function stretchesOf(
  result: CheckResult,
  elementId: string,
  member: string | undefined,
): readonly ProfileStretch[] {
  return findingsAbout(result, elementId, member).flatMap(({ stretches, verdict, number }) =>
    stretches.map((stretch) => ({ ...stretch, verdict, number })),
  );
}

/** All raceways of a rack in their order, the one shown in full too. */
export function profileRaceways(
  subjects: readonly Subject[],
  vertices: number,
  shown: Unrolled,
  result: CheckResult,
  elementId: string,
): readonly ProfileRaceway[] {
  return subjects.flatMap(({ about, element, shape }): ProfileRaceway[] => {
    if (about === undefined) return [];
    const own = unroll(shape(), vertices);
    const along = own && stationsAlike(own.stations, shown.stations);
    const found = findingsAbout(result, elementId, about);
    const distances = found.flatMap(({ leastIn }) => (leastIn === null ? [] : [leastIn]));
    return [
      {
        member: about,
        label: element.label,
        radiusIn: own ? radiusOf(own) : 0,
        axis: own && along ? axisLines(own).map((line) => moved(line, along)) : [],
        stretches: stretchesOf(result, elementId, about).map((stretch) =>
          along ? { ...stretch, fromIn: along(stretch.fromIn), toIn: along(stretch.toIn) } : stretch,
        ),
        verdict: VERDICTS.find((verdict) => found.some((finding) => finding.verdict === verdict)),
        leastIn: distances.length > 0 ? Math.min(...distances) : null,
      },
    ];
  });
}

const moved = ({ from, to }: ProfileLine, along: (station: number) => number): ProfileLine => ({
  from: { station: along(from.station), z: from.z },
  to: { station: along(to.station), z: to.z },
});

const findingsAbout = ({ findings }: CheckResult, elementId: string, member: string | undefined) =>
  findings.filter((finding) => finding.elementId === elementId && memberIn(finding.about) === member);
