/**
 * A canvas of marks. It is drawn by the processor (`willReadFrequently`): the same pixels everywhere, and drawing that
 * is over when a slice of it is over. With a layer of its own, so that moving it draws nothing.
 */
export function markCanvas(): HTMLCanvasElement {
  const canvas = document.createElement("canvas");
  canvas.style.cssText = "position:absolute;left:0;top:0;transform-origin:0 0;will-change:transform;display:none";
  return canvas;
}

/** The context of a canvas of marks. */
export const markContext = (canvas: HTMLCanvasElement): CanvasRenderingContext2D =>
  canvas.getContext("2d", { willReadFrequently: true })!;

/** Gives a canvas its size, device pixels, and the CSS size that goes with it. Clears it where that changes anything. */
export function sizeCanvas(canvas: HTMLCanvasElement, width: number, height: number, ratio: number): void {
  if (canvas.width !== width || canvas.height !== height) {
    canvas.width = width;
    canvas.height = height;
  }
  canvas.style.width = `${width / ratio}px`;
  canvas.style.height = `${height / ratio}px`;
}

/** Chromium may leave a canvas as it was that is cleared at one stroke and then not drawn on: it is cleared in two. */
export function clearCanvas(context: CanvasRenderingContext2D): void {
  const { width, height } = context.canvas;
  const half = Math.ceil(width / 2);
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.clearRect(0, 0, half, height);
  context.clearRect(half, 0, width - half, height);
}

/** Has everything asked for drawn now, not when the frame is put together. */
export const finishDrawing = (context: CanvasRenderingContext2D): void => {
  context.getImageData(0, 0, 1, 1);
};
