import { useMemo } from "react";
import { sectionAt } from "../check/section-at.ts";
import { sectionPicture } from "../issue/profile/section-picture.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import { PictureSvg } from "./PictureSvg.tsx";

/** Picture units, and pixels a unit. */
const [WIDTH, HEIGHT, ZOOM] = [190, 170, 1.3];

interface SectionHereProps {
  readonly job: Job;
  readonly id: Id;
  readonly station: number;
}

/** The section at the place where the profile is being read, for whoever doubts its numbers; the same numbers are read out with the profile. */
export function SectionHere({ job, id, station }: SectionHereProps) {
  const picture = useMemo(() => {
    const section = sectionAt(job, id, station);
    return section && sectionPicture(section, WIDTH, HEIGHT);
  }, [job, id, station]);
  if (!picture) return null;
  return (
    <div className="section-here" aria-hidden="true">
      <PictureSvg picture={picture} box={[0, 0, WIDTH, HEIGHT]} width={WIDTH * ZOOM} height={HEIGHT * ZOOM} />
    </div>
  );
}
