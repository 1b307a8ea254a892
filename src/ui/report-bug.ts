/** Hands an error of the program itself to whoever shows bugs; set by the boundary while it is there. */
let show: (error: unknown) => void = (error) => {
  throw error;
};

/** Shows a bug with a way to save the work first. */
export const reportBug = (error: unknown): void => show(error);

/** Names who shows bugs; returns what takes it back. */
export function onBug(shower: (error: unknown) => void): () => void {
  const before = show;
  show = shower;
  return () => {
    show = before;
  };
}
