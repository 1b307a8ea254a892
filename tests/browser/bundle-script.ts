import { build } from "vite";

/** A script of the tests bundled for a page, with everything it imports: text to be run with `page.addScriptTag`. */
export async function bundleScript(entry: string): Promise<string> {
  const output = await build({
    configFile: false,
    logLevel: "error",
    build: {
      write: false,
      target: "es2023",
      minify: false,
      rolldownOptions: { input: entry, output: { format: "iife" } },
    },
  });
  const chunks = (Array.isArray(output) ? output : [output]).flatMap((each) => ("output" in each ? each.output : []));
  const code = chunks.find((chunk) => chunk.type === "chunk");
  if (!code) throw new Error(`nothing was bundled from ${entry}`);
  return code.code;
}
