/// <reference types="vitest/config" />
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { basename, dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import react from "@vitejs/plugin-react";
import { defineConfig, type Plugin } from "vite";
import { contentSecurityPolicy } from "./src/cli/serve-files.mjs";
import { parseJobText } from "./src/job/parse-job.ts";
import { missingDrawings, writeJobFile } from "./src/store/job-file.ts";
import { sha256 } from "./src/store/sha256.ts";

const root = fileURLToPath(new URL(".", import.meta.url));

/** Files that a build carries beside its code, by the folder they come from and the one they go to. */
type Carried = Readonly<Record<string, { readonly from: string; readonly only: RegExp }>>;
/** What pdf.js asks for by address while it reads a drawing. */
const carriedByPage: Carried = {
  "pdfjs/cmaps": { from: "node_modules/pdfjs-dist/cmaps", only: /\.bcmap$|LICENSE/ },
  "pdfjs/standard_fonts": { from: "node_modules/pdfjs-dist/standard_fonts", only: /\.(pfb|ttf)$|LICENSE/ },
  "pdfjs/wasm": { from: "node_modules/pdfjs-dist/wasm", only: /\.(wasm|js)$|LICENSE/ },
  "pdfjs/iccs": { from: "node_modules/pdfjs-dist/iccs", only: /\.icc$|LICENSE/ },
};

export default defineConfig(({ mode }) =>
  mode === "commands"
    ? {
        build: {
          ssr: true,
          target: "node20",
          outDir: join(root, "build"),
          minify: false,
          rolldownOptions: {
            input: { underside: join(root, "src/cli/main.ts") },
            output: {
              entryFileNames: "[name].js",
              chunkFileNames: "[name]-[hash].js",
              // Installed as a package, it is a command.
              banner: (chunk) => (chunk.name === "underside" ? "#!/usr/bin/env node" : ""),
            },
          },
        },
      }
    : {
        root: join(root, "src/app"),
        base: "./",
        publicDir: false,
        plugins: [react(), statePolicy(), nameProgram(), carry(carriedByPage), packSamples()],
        worker: { format: "es" },
        build: {
          target: "es2023",
          outDir: join(root, "dist"),
          emptyOutDir: true,
          license: { fileName: "licences.md" },
          // Few files: each is a journey of its own, and a part begins when the last of its files is there.
          rolldownOptions: { output: { codeSplitting: { groups: parts } } },
        },
        test: {
          root,
          include: ["tests/**/*.test.ts", "tests/**/*.test.tsx"],
          testTimeout: 30_000,
        },
      },
);

/** The page states the server's policy itself too, so that it speaks to nobody wherever its files are put. */
function statePolicy(): Plugin {
  // A page cannot say who may frame it; only a server can.
  const content = contentSecurityPolicy.replace(/; frame-ancestors [^;]*/, "");
  return {
    name: "state-policy",
    apply: "build",
    transformIndexHtml: () => [
      { tag: "meta", attrs: { "http-equiv": "Content-Security-Policy", content }, injectTo: "head-prepend" },
    ],
  };
}

/** What goes into one file each, by the module that everything in it hangs on; a module that several need goes with the first. */
const PARTS = { begin: "src/app/begin.ts", program: "src/app/main.tsx", desk: "src/ui/desk-parts.ts" };
/** A module of a package that only names others: who imports it need not need them all. */
const GATHERS = /node_modules[\\/].*[\\/](?:index|exports[\\/][^\\/]+)\.m?js$/;
interface BuildSoFar {
  getModuleInfo(id: string): { readonly importers: readonly string[] } | null;
}
const parts = Object.entries(PARTS).map(([part, beginning], index) => ({
  debugName: part,
  name: (id: string, build: BuildSoFar) => (isNeededBy(join(root, beginning), id, build) ? part : null),
  priority: 10 - index,
}));

/** Whether a module is loaded with another: it is that one, or one of those that import it is. */
function isNeededBy(beginning: string, id: string, build: BuildSoFar): boolean {
  const seen = new Set([id]);
  for (const one of seen) {
    if (one === beginning) return true;
    for (const importer of build.getModuleInfo(one)?.importers ?? []) if (!GATHERS.test(importer)) seen.add(importer);
  }
  return false;
}

/** The page names the program's own file beside the small script it begins with, so that both are asked for at once. */
function nameProgram(): Plugin {
  return {
    name: "name-program",
    apply: "build",
    transformIndexHtml: {
      order: "post",
      handler: (_html, { bundle }) =>
        Object.values(bundle ?? {})
          .filter((chunk) => chunk.type === "chunk" && chunk.name === "program")
          .map(({ fileName }) => ({
            tag: "link",
            attrs: { rel: "modulepreload", crossorigin: true, href: `./${fileName}` },
            injectTo: "head" as const,
          })),
    },
  };
}

function carry(carried: Carried): Plugin {
  return {
    name: "carry-files",
    apply: "build",
    generateBundle() {
      for (const [to, { from, only }] of Object.entries(carried)) {
        const folder = join(root, from);
        for (const path of filesUnder(folder).filter((file) => only.test(file))) {
          const fileName = `${to}/${relative(folder, path).replaceAll("\\", "/")}`;
          this.emitFile({ type: "asset", fileName, source: readFileSync(path) });
        }
      }
    },
  };
}

/** Every folder of samples that holds a job, as one job file: samples/NAME.underside. */
function packSamples(): Plugin {
  return {
    name: "pack-samples",
    apply: "build",
    async generateBundle() {
      for (const path of filesUnder(join(root, "samples")).filter((file) => basename(file) === "job.json")) {
        const folder = dirname(path);
        const job = parseJobText(readFileSync(path, "utf8"));
        if (!job.ok) throw new Error(`${path} is not a job: ${JSON.stringify(job.problems)}`);
        const plans = filesUnder(folder).filter((file) => file.endsWith(".pdf"));
        const drawings = new Map<string, Uint8Array>();
        for (const plan of plans.map((file) => new Uint8Array(readFileSync(file))))
          drawings.set(await sha256(plan), plan);
        const [missing] = missingDrawings(job.value, drawings);
        if (missing) throw new Error(`${path} names the drawing ${missing.name}, whose content is not beside it`);
        const source = await writeJobFile(job.value, drawings);
        this.emitFile({ type: "asset", fileName: `samples/${basename(folder)}.underside`, source });
      }
    },
  };
}

function filesUnder(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? filesUnder(path) : [path];
  });
}
