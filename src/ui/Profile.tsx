import { useEffect, useMemo, useRef, useState } from "react";
import { type RunProfile, runProfile, stationToSheet } from "../check/run-profile.ts";
import { memberIn } from "../check/subject.ts";
import { stationText, written } from "../check/words.ts";
import { keyStep, raiseTag } from "../editor/edits/raise-tag.ts";
import { profilePicture } from "../issue/profile/profile-picture.ts";
import { type ProfileReading, profileReading } from "../issue/profile/profile-reading.ts";
import type { Id } from "../job/fields.ts";
import type { UnitSystem } from "../units/length.ts";
import { inches } from "../units/quantity.ts";
import { useDesk, useSession, useSystem } from "./desk-context.ts";
import { elevationText } from "./elevation-text.ts";
import { PictureSvg } from "./PictureSvg.tsx";
import { SectionHere } from "./SectionHere.tsx";
import { TagHandles } from "./TagHandles.tsx";
import { useElementSize } from "./use-element-size.ts";
import { usePointedStation } from "./use-pointed-station.ts";
import { useSelectedRun } from "./use-selected-run.ts";
import { useTagDrag } from "./use-tag-drag.ts";

/** The picture is set for paper; on the screen its points are this many pixels, fewer where there is little room. */
function zoomFor(width: number): number {
  // Grows with the words of the page, which are larger on a large screen.
  const larger = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) / 16;
  const room = width / larger;
  return larger * (room < 560 ? 1 : room < 1400 ? 1.4 : 1.6);
}

/** The profile of the selected run; nothing while none is. */
export function Profile() {
  const id = useSelectedRun();
  return id === undefined ? null : <ProfileOf key={id} id={id} />;
}

function ProfileOf({ id }: { id: Id }) {
  const { session, view } = useDesk();
  const system = useSystem();
  const hand = useTagDrag(id);
  const { job, result } = hand;
  const plot = useRef<HTMLDivElement>(null);
  const { width, height } = useElementSize(plot);
  const zoom = zoomFor(width);
  const [station, setStation] = useState<number>();
  const [member, showMember] = useShownMember(id);
  const profile = useMemo(() => (result ? runProfile(job, id, result, member) : undefined), [job, id, result, member]);
  // On the sheet as on the profile: where the pointer is on the run, it is read.
  const pointed = usePointedStation(id, member);
  useEffect(() => setStation(pointed), [pointed]);
  const drawn = useMemo(
    () =>
      profile && width > 0
        ? profilePicture(profile, { width: width / zoom, height: height / zoom }, hand.scale)
        : undefined,
    [profile, width, height, zoom, hand.scale],
  );
  useEffect(() => {
    const at = station === undefined ? undefined : stationToSheet(session.getState().job, id, station, member);
    const element = session.getState().job.elements[id];
    const sheet = element && session.getState().job.viewports[element.viewport]?.sheet;
    view.store.setState({ profileSpot: at && sheet !== undefined ? { sheet, at } : null });
  }, [station, id, member, session, view]);
  useEffect(() => () => view.store.setState({ profileSpot: null }), [view]);
  const label = profile?.label ?? job.elements[id]?.label ?? "";
  const picture = useMemo(
    () =>
      drawn && (
        <PictureSvg picture={drawn.picture} box={[0, 0, width / zoom, height / zoom]} width={width} height={height} />
      ),
    [drawn, width, height, zoom],
  );
  if (!profile || !drawn)
    return (
      <section className="profile" aria-label={`Profile of ${label}`}>
        <div className="profile-plot" ref={plot}>
          {result && !profile && (
            <p className="profile-none">The sheet of {label} has no scale yet, so there is no profile.</p>
          )}
        </div>
      </section>
    );
  const move = (to: number) => {
    const next = Math.min(Math.max(to, 0), profile.lengthIn);
    setStation(next);
    const at = stationToSheet(session.getState().job, id, next, member);
    if (at) view.goTo(at);
  };
  const raiseHere = (way: number) => {
    const at = profile.vertices.find(({ station: of, tag }) => tag !== null && Math.abs(of - here) < 0.01);
    if (at) session.attempt(raiseTag(session.getState().job, id, at.index, inches(way * keyStep(system))));
  };
  const step = system === "metric" ? 100 / 25.4 : 6;
  const here = station ?? 0;
  const reading = station === undefined ? undefined : profileReading(profile, station);
  const [x0, y0, , y1] = drawn.scale.plot;
  return (
    <section className={profile.raceways ? "profile of-rack" : "profile"} aria-label={`Profile of ${label}`}>
      <div
        className="profile-plot"
        ref={plot}
        role="slider"
        tabIndex={0}
        aria-label={`Place along ${label}`}
        aria-valuemin={0}
        aria-valuemax={Math.round(profile.lengthIn)}
        aria-valuenow={Math.round(here)}
        aria-valuetext={reading ? readingWords(reading, system) : "Not being read"}
        onPointerMove={(event) => {
          const box = event.currentTarget.getBoundingClientRect();
          const at = drawn.scale.toProfile([(event.clientX - box.left) / zoom, 0]).station;
          setStation(Math.min(Math.max(at, 0), profile.lengthIn));
        }}
        onClick={() => station !== undefined && move(station)}
        onPointerLeave={() => setStation(undefined)}
        onKeyDown={(event) => {
          if (event.key === "Escape" && hand.vertex !== undefined) {
            event.stopPropagation();
            hand.cancel();
            return;
          }
          const next = stationAfter(event.key, profile, here, step);
          const way = event.key === "ArrowUp" ? 1 : event.key === "ArrowDown" ? -1 : 0;
          if (next === undefined && way === 0) return;
          event.preventDefault();
          if (next !== undefined) move(next);
          else raiseHere(way);
        }}
      >
        {picture}
        {station !== undefined && (
          <svg
            className="profile-marker"
            viewBox={`0 0 ${width / zoom} ${height / zoom}`}
            width={width}
            height={height}
            aria-hidden="true"
          >
            <line
              x1={x0 + station * drawn.scale.along}
              x2={x0 + station * drawn.scale.along}
              y1={height / zoom - y1}
              y2={height / zoom - y0}
            />
          </svg>
        )}
      </div>
      <TagHandles
        profile={profile}
        hand={hand}
        scale={drawn.scale}
        zoom={zoom}
        height={height}
        onTake={() => plot.current?.focus({ preventScroll: true })}
      />
      {station !== undefined && <SectionHere job={job} id={id} station={station} member={member} />}
      {profile.raceways && profile.raceways.length > 1 && (
        <select
          className="profile-raceway"
          aria-label="Raceway shown in full"
          value={profile.member}
          onChange={(event) => showMember(event.currentTarget.value)}
        >
          {profile.raceways.map(({ member: own, label: name }) => (
            <option key={own} value={own}>
              {name}
            </option>
          ))}
        </select>
      )}
      <p className="profile-reading" aria-hidden="true">
        {reading
          ? readingWords(reading, system)
          : "Point along the profile, or focus it and use the arrow keys, to read it. Drag a tag up or down, or press ↑ or ↓ at it, to change it."}
      </p>
    </section>
  );
}

/** The raceway of a rack to be shown in full: the one chosen, else the one the selected finding is about, else none, which is the highest. */
function useShownMember(id: Id): [member: string | undefined, show: (member: string) => void] {
  const told = useSession(({ selection }) =>
    selection !== null && "finding" in selection && selection.finding.elementId === id
      ? memberIn(selection.finding.about)
      : undefined,
  );
  const [chosen, choose] = useState<{ readonly told: string | undefined; readonly member: string }>();
  // A finding selected later is asked for anew.
  return [chosen && chosen.told === told ? chosen.member : told, (member) => choose({ told, member })];
}

/** Where a key takes the marker from here; undefined for a key that does not move it. */
function stationAfter(key: string, profile: RunProfile, here: number, step: number): number | undefined {
  switch (key) {
    case "ArrowRight":
      return here + step;
    case "ArrowLeft":
      return here - step;
    case "PageDown":
      return nextStop(profile, here, 1);
    case "PageUp":
      return nextStop(profile, here, -1);
    case "Home":
      return 0;
    case "End":
      return profile.lengthIn;
  }
  return undefined;
}

/** Vertices and the ends of stretches: the places worth stopping at. */
function nextStop(profile: RunProfile, here: number, way: 1 | -1): number {
  const stops = [
    ...profile.vertices.map(({ station }) => station),
    ...profile.stretches.flatMap(({ fromIn, toIn }) => [fromIn, toIn]),
  ].sort((a, b) => a - b);
  const next = way === 1 ? stops.find((stop) => stop > here + 0.01) : stops.findLast((stop) => stop < here - 0.01);
  return next ?? here;
}

/** A station of the profile in one line. */
function readingWords(reading: ProfileReading, system: UnitSystem): string {
  const parts = [`Station ${stationText(reading.station, system)}`];
  if (reading.topZ !== undefined) parts.push(`top ${elevationText(reading.topZ, system)}`);
  if (reading.undersideZ !== undefined)
    parts.push(`deck ${reading.deck?.label ?? ""} ${elevationText(reading.undersideZ, system)}`);
  if (reading.gap !== undefined) parts.push(`gap ${written(reading.gap, system)}`);
  if (reading.room !== undefined)
    parts.push(
      reading.room < 0
        ? `${written(-reading.room, system)} too high`
        : `${written(reading.room, system)} under the limit`,
    );
  if (reading.undersideZ === undefined) parts.push("no deck of known elevation above");
  return parts.join(" · ");
}
