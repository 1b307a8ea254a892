import type { RunProfile } from "../check/run-profile.ts";
import type { ProfileScale } from "../issue/profile/profile-scale.ts";
import type { TagDrag } from "./use-tag-drag.ts";

interface TagHandlesProps {
  readonly profile: RunProfile;
  readonly hand: TagDrag;
  readonly scale: ProfileScale;
  /** Pixels a unit of the picture, and the height of the picture in pixels. */
  readonly zoom: number;
  readonly height: number;
  /** The profile takes the focus, and with it Escape. */
  readonly onTake: () => void;
}

/** A handle at every tag of a profile, to be dragged up or down; Escape puts it back. The keyboard has arrow keys at the marker instead. */
export function TagHandles({ profile, hand, scale, zoom, height, onTake }: TagHandlesProps) {
  const handles = profile.vertices.map(({ index, station, z, tag }) => {
    if (z === null || tag === null) return null;
    // A tag below what the picture shows has its handle at the picture's foot.
    const [x, y] = scale.toPicture({ station, z: Math.max(z, scale.low) });
    return (
      <button
        key={index}
        type="button"
        tabIndex={-1}
        title={`Tag ${tag}: drag it up or down`}
        className={hand.vertex === index ? "tag-handle held" : "tag-handle"}
        style={{ left: x * zoom, top: height - y * zoom }}
        onPointerDown={(event) => {
          if (event.button !== 0) return;
          event.preventDefault();
          event.currentTarget.setPointerCapture(event.pointerId);
          hand.take(index, -event.clientY / zoom, scale);
          onTake();
        }}
        onPointerMove={(event) => hand.move(-event.clientY / zoom)}
        onPointerUp={hand.drop}
        onPointerCancel={hand.cancel}
      />
    );
  });
  return (
    <div className="tag-handles" aria-hidden="true">
      {handles}
    </div>
  );
}
