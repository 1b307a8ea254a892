import { createReadStream, statSync } from "node:fs";
import { createServer } from "node:http";
import { extname, join, normalize, sep } from "node:path";

/**
 * What the page may do: nothing but itself. No other host is ever spoken to, so a drawing cannot leave the machine. `blob:` workers
 * and pictures are made by the page from its own data, WebAssembly decodes images inside PDFs, inline styles place things.
 */
export const contentSecurityPolicy = [
  "default-src 'self'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' blob: data:",
  "font-src 'self' blob: data:",
  "worker-src 'self' blob:",
  "connect-src 'self' blob:",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join("; ");

const types = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".mjs": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".ico": "image/x-icon",
  ".wasm": "application/wasm",
  ".woff": "font/woff",
  ".woff2": "font/woff2",
  ".ttf": "font/ttf",
  ".pdf": "application/pdf",
  ".txt": "text/plain; charset=utf-8",
};

/** Serves the files of `folder`, and nothing outside it, on this machine only. Resolves to the server and its port; rejects when the port is taken. */
export function serveFiles(folder, port) {
  const server = createServer((request, response) => {
    const headers = {
      "Content-Security-Policy": contentSecurityPolicy,
      "X-Content-Type-Options": "nosniff",
      "Referrer-Policy": "no-referrer",
      "Cross-Origin-Opener-Policy": "same-origin",
      "Cache-Control": "no-cache",
    };
    const refuse = (status, words) => {
      response.writeHead(status, { ...headers, "Content-Type": types[".txt"] }).end(`${words}\n`);
    };
    if (request.method !== "GET" && request.method !== "HEAD") return refuse(405, "Only GET and HEAD.");
    const path = pathOf(folder, request.url ?? "/");
    const stats = path === null ? undefined : statSync(path, { throwIfNoEntry: false });
    if (path === null || !stats?.isFile()) return refuse(404, "Not here.");
    response.writeHead(200, {
      ...headers,
      "Content-Type": types[extname(path).toLowerCase()] ?? "application/octet-stream",
      "Content-Length": stats.size,
    });
    if (request.method === "HEAD") return response.end();
    createReadStream(path)
      .on("error", () => response.destroy())
      .pipe(response);
  });
  return new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen(port, "127.0.0.1", () => resolve({ server, port: server.address().port }));
  });
}

/** The file that an address names, or null when it names none inside `folder`. */
function pathOf(folder, url) {
  let path;
  try {
    path = decodeURIComponent(new URL(url, "http://localhost").pathname);
  } catch {
    return null;
  }
  if (path.includes("\0") || path.split(/[/\\]/).some((part) => part.startsWith("."))) return null;
  const file = normalize(join(folder, path.endsWith("/") ? `${path}index.html` : path));
  return file.startsWith(folder.endsWith(sep) ? folder : folder + sep) ? file : null;
}
