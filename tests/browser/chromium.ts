import { existsSync } from "node:fs";
import { delimiter, join } from "node:path";
import { type Browser, chromium } from "playwright-core";

/** No sandbox: tests also run as root, in containers. Drawing by software, so that a machine without a graphics card will do. */
const flags = [
  "--no-sandbox",
  "--use-gl=angle",
  "--use-angle=swiftshader",
  "--enable-unsafe-swiftshader",
  "--disable-background-networking",
];

const namesOnPath = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];
const usualPlaces: Partial<Record<NodeJS.Platform, readonly string[]>> = {
  darwin: [
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  ],
  win32: ["PROGRAMFILES", "PROGRAMFILES(X86)", "LOCALAPPDATA"].flatMap((name) => {
    const folder = process.env[name];
    return folder
      ? [join(folder, "Chromium/Application/chrome.exe"), join(folder, "Google/Chrome/Application/chrome.exe")]
      : [];
  }),
};

/**
 * The browser for the tests: the one that the CHROMIUM variable names, else one on the system, else the Linux x64 one inside
 * the development dependency `@sparticuz/chromium`. Throws, saying what to install, when there is none.
 */
export async function findChromium(): Promise<string> {
  const { CHROMIUM } = process.env;
  if (CHROMIUM) {
    if (existsSync(CHROMIUM)) return CHROMIUM;
    throw new Error(`CHROMIUM names ${CHROMIUM}, which is not there.`);
  }
  const onPath = (process.env.PATH ?? "")
    .split(delimiter)
    .flatMap((folder) => namesOnPath.map((name) => join(folder, name)));
  const found = [...onPath, ...(usualPlaces[process.platform] ?? [])].find((path) => existsSync(path));
  if (found) return found;
  if (process.platform === "linux" && process.arch === "x64") {
    const { default: carried } = await import("@sparticuz/chromium");
    return carried.executablePath();
  }
  throw new Error(
    "The browser tests need a Chromium: install one (on Debian and Ubuntu: apt-get install chromium), or set the variable CHROMIUM to the path of one.",
  );
}

/** Starts the browser. The caller closes it. */
export async function launchChromium(): Promise<Browser> {
  return chromium.launch({ executablePath: await findChromium(), args: flags });
}
