import { useEffect, useRef } from "react";
import { displaySize, type PageGeometry } from "../../pdf/read/page-geometry.ts";
import { useDesk } from "../desk-context.ts";

interface PageThumbProps {
  readonly handle: number;
  readonly geometry: PageGeometry;
  /** The longer side of the picture, CSS pixels. */
  readonly long: number;
}

/** A small picture of a page, drawn when it comes into sight. A page that cannot be drawn stays blank; its name stands beside it. */
export function PageThumb({ handle, geometry, long }: PageThumbProps) {
  const { host } = useDesk();
  const canvas = useRef<HTMLCanvasElement>(null);
  const size = displaySize(geometry);
  const scale = long / Math.max(size.width, size.height);
  const [width, height] = [Math.round(size.width * scale), Math.round(size.height * scale)];
  useEffect(() => {
    const element = canvas.current;
    if (!element) return;
    const stop = new AbortController();
    const draw = async () => {
      // Twice as large and scaled down: thin lines would otherwise all be a whole pixel.
      const ratio = 2 * (window.devicePixelRatio || 1);
      const { bitmap } = await host.renderer.render({ handle, page: geometry.page, scale: scale * ratio }, stop.signal);
      element.width = bitmap.width;
      element.height = bitmap.height;
      element.getContext("bitmaprenderer")?.transferFromImageBitmap(bitmap);
    };
    const watch = new IntersectionObserver((entries) => {
      if (!entries.some(({ isIntersecting }) => isIntersecting)) return;
      watch.disconnect();
      draw().catch(() => undefined);
    });
    watch.observe(element);
    return () => {
      watch.disconnect();
      stop.abort();
    };
  }, [host, handle, geometry, scale]);
  return <canvas ref={canvas} className="thumb" style={{ width, height }} />;
}
