/** Opens the system's file picker; resolves to the files chosen, none when it was closed. */
export function pickFiles(accept: string, multiple: boolean): Promise<readonly File[]> {
  return new Promise((resolve) => {
    const input = document.createElement("input");
    input.type = "file";
    input.accept = accept;
    input.multiple = multiple;
    input.hidden = true;
    document.body.append(input);
    const finish = () => {
      resolve([...(input.files ?? [])]);
      input.remove();
    };
    input.addEventListener("change", finish, { once: true });
    input.addEventListener("cancel", finish, { once: true });
    input.click();
  });
}

/** Gives the person a file, by the browser's own way of saving. */
export function downloadFile(name: string, content: string | Uint8Array | Blob, type: string): void {
  const blob = new Blob([content as BlobPart], { type });
  const address = URL.createObjectURL(blob);
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  // The browser has to fetch the blob first.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** A name that every file system takes. */
export const fileName = (name: string): string =>
  name
    .trim()
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are among what file systems refuse
    .replace(/[\u0000-\u001f<>:"/\\|?*]+/g, "-")
    .replace(/[. ]+$/, "")
    .slice(0, 120) || "job";
