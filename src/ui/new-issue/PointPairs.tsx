import { useCallback, useEffect, useRef, useState } from "react";
import { Button } from "react-aria-components";
import type { Point2 } from "../../geometry/point.ts";
import type { PointPair } from "../../geometry/similarity.ts";
import { applyMatrix, type Matrix } from "../../pdf/read/matrix.ts";
import { displaySize, type PageGeometry } from "../../pdf/read/page-geometry.ts";
import { snapTo } from "../../pdf/read/snap-to.ts";
import { sheetUnits } from "../../units/quantity.ts";
import { useDesk } from "../desk-context.ts";
import type { PageLines } from "../host.ts";
import type { OpenPage } from "./issue-host.ts";
import { Pane, type PaneView } from "./Pane.tsx";

interface PointPairsProps {
  readonly old: OpenPage & { readonly geometry: PageGeometry };
  readonly fresh: OpenPage & { readonly geometry: PageGeometry };
  readonly onLay: (pairs: readonly PointPair[]) => void;
  readonly onLeave: () => void;
}

/** Two issues side by side, on which a person points at places that both show: the first with the first, the second with the second. */
export function PointPairs({ old, fresh, onLay, onLeave }: PointPairsProps) {
  const [olds, setOlds] = useState<readonly Point2[]>([]);
  const [news, setNews] = useState<readonly Point2[]>([]);
  const pairs = olds.slice(0, news.length).map((from, i): PointPair => ({ from, to: news[i]! }));
  const waiting = olds.length === news.length ? null : olds.length > news.length ? "new" : "old";
  return (
    <>
      <p className="quiet">
        Point at the same place on both issues: corners of the building or grid crossings, far apart. Two pairs are
        enough, a third shows whether they agree. Magnify first, so that the place is hit; ends and crossings of lines
        attract.
      </p>
      <div className="point-panes">
        <PointPane
          name="Old issue"
          {...old}
          points={olds}
          onPoint={(at) => setOlds(olds.length > news.length ? [...olds.slice(0, -1), at] : [...olds, at])}
        />
        <PointPane
          name="New issue"
          {...fresh}
          points={news}
          onPoint={(at) => setNews(news.length > olds.length ? [...news.slice(0, -1), at] : [...news, at])}
        />
      </div>
      <p role="status">
        {waiting === null
          ? pairs.length === 0
            ? "No place yet."
            : pairs.length === 1
              ? "One pair. Point at a second place, far from the first."
              : `${pairs.length} pairs.`
          : `Now the same place on the ${waiting} issue.`}
      </p>
      <div className="acts">
        <Button className="button" onPress={onLeave}>
          Leave it
        </Button>
        <Button
          className="button"
          isDisabled={olds.length + news.length === 0}
          onPress={() => {
            const least = Math.max(olds.length, news.length) - 1;
            setOlds(olds.slice(0, least));
            setNews(news.slice(0, least));
          }}
        >
          Take back the last place
        </Button>
        <Button className="button main" isDisabled={pairs.length < 2 || waiting !== null} onPress={() => onLay(pairs)}>
          Lay it by these places
        </Button>
      </div>
    </>
  );
}

/** How long the hand has to rest before a sharp picture is drawn, milliseconds. */
const REST = 120;

function PointPane({
  name,
  handle,
  page,
  geometry,
  points,
  onPoint,
}: PointPairsProps["old"] & {
  readonly name: string;
  readonly points: readonly Point2[];
  readonly onPoint: (at: Point2) => void;
}) {
  const { host } = useDesk();
  const [lines, setLines] = useState<PageLines | null>(null);
  const [sharp, setSharp] = useState<Drawn | null>(null);
  const [coarse, setCoarse] = useState<Drawn | null>(null);
  const stop = useRef<AbortController | null>(null);
  useEffect(() => {
    let wanted = true;
    host.pageLines(handle, page).then(
      (found) => wanted && setLines(found),
      () => undefined,
    );
    return () => {
      wanted = false;
    };
  }, [host, handle, page]);
  const render = useCallback(
    async (scale: number, region: Drawn["region"] | undefined, signal: AbortSignal): Promise<Drawn> => {
      const asked = region ? { handle, page, scale, region } : { handle, page, scale };
      const drawn = await host.renderer.render(asked, signal);
      return { bitmap: drawn.bitmap, region: drawn.region, scale };
    },
    [host, handle, page],
  );
  useEffect(() => {
    const ending = new AbortController();
    const size = displaySize(geometry);
    render(1200 / Math.max(size.width, size.height), undefined, ending.signal).then(setCoarse, () => undefined);
    return () => ending.abort();
  }, [render, geometry]);
  const seen = useCallback(
    ({ middle, zoom }: PaneView, size: { readonly width: number; readonly height: number }) => {
      stop.current?.abort();
      const ending = new AbortController();
      stop.current = ending;
      const whole = displaySize(geometry);
      const scale = zoom * (window.devicePixelRatio || 1);
      const [w, h] = [Math.ceil(whole.width * scale), Math.ceil(whole.height * scale)];
      const x = Math.max(0, Math.floor((middle[0] - size.width / 2 / zoom) * scale));
      const y = Math.max(0, Math.floor((middle[1] - size.height / 2 / zoom) * scale));
      const region = {
        x,
        y,
        width: Math.min(w, Math.ceil((middle[0] + size.width / 2 / zoom) * scale)) - x,
        height: Math.min(h, Math.ceil((middle[1] + size.height / 2 / zoom) * scale)) - y,
      };
      if (region.width < 2 || region.height < 2) return;
      setTimeout(() => {
        if (ending.signal.aborted) return;
        render(scale, region, ending.signal).then(
          (drawn) => !ending.signal.aborted && setSharp(drawn),
          () => undefined,
        );
      }, REST);
    },
    [render, geometry],
  );
  useEffect(() => () => stop.current?.abort(), []);
  const draw = (context: CanvasRenderingContext2D, to: Matrix) => {
    for (const drawn of [coarse, sharp]) if (drawn) drawPage(context, drawn, geometry, to);
    for (const [i, at] of points.entries()) drawPoint(context, applyMatrix(to, at), i + 1);
  };
  return (
    <figure>
      <Pane
        label={`${name}. Arrow keys move the crosshair, plus and minus change the size, Enter puts a place, 0 shows the whole page.`}
        geometry={geometry}
        draw={draw}
        onView={seen}
        onPoint={(at, reach) => {
          const near = lines && lines.linework.count > 0 ? snapTo(lines.linework, at, sheetUnits(reach)) : undefined;
          onPoint(near ? near.at : at);
        }}
      />
      <figcaption>
        {name}
        {points.length > 0 ? `: ${points.length === 1 ? "1 place" : `${points.length} places`}` : ""}
      </figcaption>
    </figure>
  );
}

interface Drawn {
  readonly bitmap: ImageBitmap;
  readonly region: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  readonly scale: number;
}

/** A drawn part of the page where it belongs. */
function drawPage(
  context: CanvasRenderingContext2D,
  { bitmap, region, scale }: Drawn,
  geometry: PageGeometry,
  to: Matrix,
) {
  // Where the page's upper left corner as displayed lies, and how large a displayed pixel is now.
  const { view, rotate, userUnit } = geometry;
  const corner: Point2 =
    rotate === 0
      ? [view[0], view[3]]
      : rotate === 90
        ? [view[0], view[1]]
        : rotate === 180
          ? [view[2], view[1]]
          : [view[2], view[3]];
  const [x, y] = applyMatrix(to, corner);
  const size = Math.hypot(to[0], to[1]) / userUnit / scale;
  context.drawImage(bitmap, x + region.x * size, y + region.y * size, region.width * size, region.height * size);
}

/** A numbered place. */
function drawPoint(context: CanvasRenderingContext2D, [x, y]: Point2, number: number): void {
  context.setLineDash([]);
  context.strokeStyle = "#005c92";
  context.lineWidth = 2;
  context.beginPath();
  context.arc(x, y, 9, 0, 2 * Math.PI);
  context.moveTo(x - 14, y);
  context.lineTo(x + 14, y);
  context.moveTo(x, y - 14);
  context.lineTo(x, y + 14);
  context.stroke();
  context.font = "bold 14px 'Underside Sans', sans-serif";
  context.textAlign = "left";
  context.textBaseline = "bottom";
  context.lineWidth = 4;
  context.strokeStyle = "#ffffff";
  context.strokeText(String(number), x + 11, y - 7);
  context.fillStyle = "#005c92";
  context.fillText(String(number), x + 11, y - 7);
}
