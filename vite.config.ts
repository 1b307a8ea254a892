/// <reference types="vitest/config" />
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import react from "@vitejs/plugin-react";
import { defineConfig, type Plugin } from "vite";

const root = fileURLToPath(new URL(".", import.meta.url));

/** Files that a build carries beside its code, by the folder they come from and the one they go to. */
type Carried = Readonly<Record<string, { readonly from: string; readonly only: RegExp }>>;
/** What pdf.js asks for by address while it reads a drawing, and the sample job. */
const carriedByPage: Carried = {
  "pdfjs/cmaps": { from: "node_modules/pdfjs-dist/cmaps", only: /\.bcmap$|LICENSE/ },
  "pdfjs/standard_fonts": { from: "node_modules/pdfjs-dist/standard_fonts", only: /\.(pfb|ttf)$|LICENSE/ },
  "pdfjs/wasm": { from: "node_modules/pdfjs-dist/wasm", only: /\.(wasm|js)$|LICENSE/ },
  "pdfjs/iccs": { from: "node_modules/pdfjs-dist/iccs", only: /\.icc$|LICENSE/ },
  samples: { from: "samples", only: /\.(pdf|json|underside)$/ },
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
            output: { entryFileNames: "[name].js", chunkFileNames: "[name]-[hash].js" },
          },
        },
      }
    : {
        root: join(root, "src/app"),
        base: "./",
        publicDir: false,
        plugins: [react(), carry(carriedByPage)],
        worker: { format: "es" },
        build: {
          target: "es2023",
          outDir: join(root, "dist"),
          emptyOutDir: true,
          license: { fileName: "licences.md" },
        },
        test: {
          root,
          include: ["tests/**/*.test.ts", "tests/**/*.test.tsx"],
          testTimeout: 30_000,
        },
      },
);

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

function filesUnder(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? filesUnder(path) : [path];
  });
}
