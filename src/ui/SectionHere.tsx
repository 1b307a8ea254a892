import { useMemo } from "react";
import { sectionAt } from "../check/section-at.ts";
import { sectionPicture } from "../issue/profile/section-picture.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import { PictureSvg } from "./PictureSvg.tsx";

/** Picture units, and how large they are: with the words of the page, larger on a large screen. */
const [WIDTH, HEIGHT] = [190, 170];
const sized = (units: number): string => `${(units * 1.3) / 16}rem`;

interface SectionHereProps {
  readonly job: Job;
  readonly id: Id;
  readonly station: number;
  /** The raceway of a rack. */
  readonly member?: string | undefined;
}

/** The section through wiring at a station, for whoever doubts its numbers; the same numbers are read out with the profile. */
export function SectionHere({ job, id, station, member }: SectionHereProps) {
  const picture = useMemo(() => {
    const section = sectionAt(job, id, station, member);
    return section && sectionPicture(section, WIDTH, HEIGHT);
  }, [job, id, station, member]);
  if (!picture) return null;
  return (
    <div className="section-here" aria-hidden="true">
      <PictureSvg picture={picture} box={[0, 0, WIDTH, HEIGHT]} width={sized(WIDTH)} height={sized(HEIGHT)} />
    </div>
  );
}
