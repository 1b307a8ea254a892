import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import type { Server } from "node:http";
import { request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { serveFiles } from "../../src/cli/serve-files.mjs";

let outer: string;
let served: { readonly server: Server; readonly port: number };

beforeAll(async () => {
  outer = await mkdtemp(join(tmpdir(), "underside-serve-"));
  await mkdir(join(outer, "dist/assets"), { recursive: true });
  await mkdir(join(outer, "dist-beside"));
  await writeFile(join(outer, "secret.txt"), "secret");
  await writeFile(join(outer, "dist-beside/secret.txt"), "secret");
  await writeFile(join(outer, "dist/index.html"), "<!doctype html>");
  await writeFile(join(outer, "dist/.stamp"), "secret");
  await writeFile(join(outer, "dist/assets/a b.js"), "1");
  served = await serveFiles(join(outer, "dist"), 0);
});
afterAll(async () => {
  served.server.close();
  await rm(outer, { recursive: true, force: true });
});

/** Asks for exactly this path: `fetch` would tidy the dots away. */
function ask(
  path: string,
  method = "GET",
): Promise<{ status: number; headers: Record<string, unknown>; body: string }> {
  return new Promise((resolve, reject) => {
    const asked = request({ host: "127.0.0.1", port: served.port, path, method, agent: false }, (answer) => {
      let body = "";
      answer.on("data", (part) => {
        body += part;
      });
      answer.on("end", () => resolve({ status: answer.statusCode ?? 0, headers: answer.headers, body }));
    });
    asked.on("error", reject).end();
  });
}

describe("the server of the page", () => {
  test("serves files with their types, whatever follows the question mark", async () => {
    expect(await ask("/?sample=x")).toMatchObject({ status: 200, body: "<!doctype html>" });
    const script = await ask("/assets/a%20b.js");
    expect([script.status, script.headers["content-type"]]).toEqual([200, "text/javascript; charset=utf-8"]);
    expect(await ask("/index.html", "HEAD")).toMatchObject({ status: 200, body: "" });
  });

  test.each([
    "/../secret.txt",
    "/assets/../../secret.txt",
    "/%2e%2e/secret.txt",
    "/..%2fsecret.txt",
    "/..%5csecret.txt",
    "/../dist-beside/secret.txt",
    "//127.0.0.1/etc/passwd",
    "/.stamp",
    "/assets",
    "/%00",
    "/%",
    "/nothing.js",
  ])("has nothing at %s", async (path) => {
    const { status, body } = await ask(path);
    expect(status).toBe(404);
    expect(body).not.toContain("secret");
  });

  test("takes nothing", async () => {
    expect((await ask("/", "POST")).status).toBe(405);
  });

  test("lets the page speak to nobody but itself, also where it refuses", async () => {
    for (const path of ["/", "/nothing"]) {
      const policy = String((await ask(path)).headers["content-security-policy"]);
      expect(policy).toMatch(/default-src 'self'/);
      expect(policy).toMatch(/connect-src 'self' blob:(;|$)/);
      expect(policy).not.toMatch(/https?:|\*|'unsafe-eval'/);
      expect(policy.match(/script-src [^;]*/)?.[0]).not.toContain("unsafe-inline");
    }
  });
});
