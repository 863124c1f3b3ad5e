import { readdirSync } from "node:fs";
import { createServer, type IncomingMessage } from "node:http";
import path from "node:path";
import { createAsk } from "@/lib/server/commands/create-ask";
import { lengthenBooking } from "@/lib/server/commands/lengthen-booking";
import { bearerOf } from "@/lib/server/api/bearer";
import type { RouteHandler } from "@/lib/server/api/endpoint";

/**
 * The routes of /api/v1 behind a plain HTTP server: the same handlers, contracts, commands and connections as the web
 * server's, without its pages, so that two of them start in seconds. Two commands that scripts have no operation for
 * are there too, for the same tokens. The port is the first argument.
 */
const folder = path.resolve(import.meta.dirname, "../../../app/api/v1");
const ROUTES = readdirSync(folder, { recursive: true, encoding: "utf8" })
  .filter((file) => path.basename(file) === "route.ts" && !file.includes("[[..."))
  .map((file) => ({ file: path.join(folder, file), pattern: new RegExp(`^/api/v1/${path.dirname(file).replaceAll(".", "\\.").replaceAll(/\[(\w+)\]/g, "(?<$1>[^/]+)")}$`) }));
const COMMANDS = { "lengthen-booking": lengthenBooking, "create-ask": createAsk } as const;

async function bodyOf(request: IncomingMessage): Promise<Buffer> {
  const parts: Buffer[] = [];
  for await (const part of request) parts.push(part as Buffer);
  return Buffer.concat(parts);
}

async function answer(request: IncomingMessage): Promise<Response> {
  const url = new URL(request.url ?? "/", "http://localhost");
  const body = await bodyOf(request);
  const name = /^\/commands\/([a-z-]+)$/.exec(url.pathname)?.[1];
  if (name === "lengthen-booking" || name === "create-ask") {
    const bearer = await bearerOf(request.headers.authorization ?? null);
    if (bearer.is !== "known") return new Response(null, { status: 401 });
    const outcome = await COMMANDS[name](bearer.who, JSON.parse(body.toString("utf8")));
    const fault = !outcome.ok && outcome.problems[0].code === "fault";
    return Response.json(outcome.ok ? outcome.value : { problems: outcome.problems }, { status: outcome.ok ? 200 : fault ? 500 : 409 });
  }
  const route = ROUTES.find(({ pattern }) => pattern.test(url.pathname));
  if (route === undefined) return new Response(null, { status: 404 });
  const handlers = (await import(route.file)) as Readonly<Record<string, RouteHandler>>;
  const handler = handlers[request.method ?? "GET"];
  if (handler === undefined) return new Response(null, { status: 405 });
  const headers = new Headers(Object.entries(request.headers).flatMap(([key, value]) => (typeof value === "string" ? [[key, value] as [string, string]] : [])));
  const asked = new Request(url, { method: request.method ?? "GET", headers, ...(body.length === 0 ? {} : { body: new Uint8Array(body) }) });
  return handler(asked, { params: Promise.resolve({ ...route.pattern.exec(url.pathname)?.groups }) });
}

createServer((request, response) => {
  answer(request).then(
    async (given) => {
      response.writeHead(given.status, Object.fromEntries(given.headers));
      response.end(Buffer.from(await given.arrayBuffer()));
    },
    () => response.destroy(),
  );
}).listen(Number(process.argv[2]), "127.0.0.1");
