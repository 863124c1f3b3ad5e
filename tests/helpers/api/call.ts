import { readdirSync } from "node:fs";
import path from "node:path";
import type { RouteHandler } from "@/lib/server/api/endpoint";

const folder = path.resolve(import.meta.dirname, "../../../app/api/v1");

/** Every address of the HTTP interface, as the folders have it; those with fixed parts come first. */
const ROUTES = readdirSync(folder, { recursive: true, encoding: "utf8" })
  .filter((file) => path.basename(file) === "route.ts")
  .map((file) => ({ file: path.join(folder, file), place: path.dirname(file) }))
  .sort((a, b) => Number(a.place.includes("[")) - Number(b.place.includes("[")) || Number(a.place.includes("...")) - Number(b.place.includes("...")))
  .map(({ file, place }) => ({ file, pattern: new RegExp(`^/${place.replaceAll(".", "\\.").replaceAll(/\[\[\\\.\\\.\\\.(\w+)\]\]/g, "(?<$1>.*)").replaceAll(/\[(\w+)\]/g, "(?<$1>[^/]+)")}$`) }));

export type Called = { readonly status: number; readonly headers: Headers; readonly body: unknown };
export type Sent = { readonly method?: string; readonly token?: string; readonly json?: unknown; readonly headers?: Readonly<Record<string, string>>; readonly raw?: BodyInit };

/** Asks a route as the web server would, but within this process. Import after the environment is set. */
export async function call(address: string, { method, token, json, headers = {}, raw }: Sent = {}): Promise<Called> {
  const url = new URL(`http://localhost:3000/api/v1${address}`);
  const place = url.pathname.replace("/api/v1", "") || "/";
  const route = ROUTES.find(({ pattern }) => pattern.test(place));
  if (route === undefined) throw new Error(`no route for ${place}`);
  const body = raw ?? (json === undefined ? undefined : JSON.stringify(json));
  const verb = method ?? (body === undefined ? "GET" : "POST");
  const request = new Request(url, {
    method: verb,
    headers: { ...(token === undefined ? {} : { Authorization: `Bearer ${token}` }), ...(json === undefined ? {} : { "Content-Type": "application/json" }), ...headers },
    ...(body === undefined ? {} : { body, duplex: "half" }),
  } as RequestInit);
  const handlers = (await import(route.file)) as Record<string, RouteHandler>;
  const handler = handlers[verb];
  if (handler === undefined) throw new Error(`no ${verb} for ${place}`);
  // As Next has it: no object where the address has no parts of its own.
  const groups = route.pattern.exec(place)?.groups;
  const params = groups === undefined ? undefined : { ...groups };
  const answer = await handler(request, { params: Promise.resolve(params) });
  const text = await answer.text();
  return { status: answer.status, headers: answer.headers, body: text === "" ? undefined : JSON.parse(text) };
}
