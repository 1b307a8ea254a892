import { type FrameTimes, frameTimes, gestureStep } from "./frame-times.ts";

/** A page that shows one picture and moves it: what any page that shows a sheet needs at the least. */
const canvas = document.createElement("canvas");
canvas.style.cssText = "position:absolute;left:0;top:0;transform-origin:0 0;will-change:transform";
document.getElementById("host")!.append(canvas);

/** Frame times of panning or zooming a picture of so many pixels, which starts at a place of the window. */
const timeBitmap = async (
  kind: "pan" | "zoom",
  steps: number,
  { width, height, x, y, rest }: { width: number; height: number; x: number; y: number; rest: number },
): Promise<FrameTimes> => {
  if (canvas.width !== width || canvas.height !== height) {
    const picture = new OffscreenCanvas(width, height);
    const context = picture.getContext("2d", { willReadFrequently: true })!;
    context.fillStyle = "#fff";
    context.fillRect(0, 0, width, height);
    context.fillStyle = "#000";
    for (let at = 0; at < width; at += 7) context.fillRect(at, 0, 1, height);
    [canvas.width, canvas.height] = [width, height];
    canvas.getContext("bitmaprenderer")!.transferFromImageBitmap(picture.transferToImageBitmap());
  }
  let [scale, left, top] = [1, x, y];
  return frameTimes(
    (step) => {
      const { dx, dy, factor } = gestureStep(kind, step);
      const [midX, midY] = [innerWidth / 2, innerHeight / 2];
      left = midX + (left - midX) * factor + dx;
      top = midY + (top - midY) * factor + dy;
      scale *= factor;
      canvas.style.transform = `matrix(${scale},0,0,${scale},${left},${top})`;
    },
    steps,
    rest,
  );
};

const emptyDesk = { timeBitmap };
/** What `page.evaluate` finds as `emptyDesk`. */
export type EmptyDesk = typeof emptyDesk;
Object.assign(globalThis, { emptyDesk });
