import { readFileSync } from "node:fs";
import path from "node:path";
import type { BrowserContext } from "@playwright/test";
import { AGAIN } from "./again";

/** What an action takes: a form; a form behind the state that useActionState keeps; or plain arguments. */
export type Payload =
  | { readonly as: "form" | "form-behind-state"; readonly fields: Readonly<Record<string, string | readonly string[]>> }
  | { readonly as: "arguments"; readonly args: readonly unknown[] };

export type BuiltAction = { readonly name: string; readonly id: string; readonly page: string };

type Manifest = { readonly node: Readonly<Record<string, { readonly filename: string; readonly exportedName: string; readonly workers: Readonly<Record<string, unknown>> }>> };

/** Every server action in the production build, with a page that it is sent from: "/clashes releaseAction". */
export function builtActions(): readonly BuiltAction[] {
  const file = path.resolve(import.meta.dirname, "..", ".next", "server", "server-reference-manifest.json");
  const { node } = JSON.parse(readFileSync(file, "utf8")) as Manifest;
  return Object.entries(node).map(([id, { filename, exportedName, workers }]) => {
    const page = Object.keys(workers).sort()[0] ?? "";
    const folder = path.dirname(filename).replace(/^app/, "");
    return { name: `${folder} ${exportedName}`, id, page: page.replace(/^app/, "").replace(/\/page$/, "") };
  });
}

export type Answer = { readonly status: number; readonly body: string; readonly problems: readonly string[] };

/** A refusal as an answer carries it, whatever stands between its code and its words: field, value, what would be allowed. */
const PROBLEM = /"code":"([\w-]+)"[^{}]*?"message":"((?:[^"\\]|\\.)*)"/g;

/** Sends an action's request by hand, as the browser's runtime would. */
export async function send(context: BrowserContext, address: string, actionId: string, payload: Payload): Promise<Answer> {
  const headers = { "Next-Action": actionId, Origin: process.env["LEHRBOOK_E2E_URL"] ?? "" };
  const sent =
    payload.as === "arguments"
      ? { headers: { ...headers, "Content-Type": "text/plain;charset=UTF-8" }, data: JSON.stringify(payload.args) }
      : { headers, multipart: multipart(payload) };
  const answer = await context.request.post(address, { ...sent, ...AGAIN, maxRedirects: 0 });
  const body = await answer.text();
  return { status: answer.status(), body, problems: [...body.matchAll(PROBLEM)].map(([, code, message]) => `${code ?? ""}: ${message ?? ""}`) };
}

function multipart({ as, fields }: Extract<Payload, { fields: unknown }>): FormData {
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) {
    for (const one of typeof value === "string" ? [value] : value) form.append(`_1_${name}`, one);
  }
  // The arguments come last: they are read as soon as they arrive.
  form.append("0", as === "form" ? '["$K1"]' : '[{"problems":[]},"$K1"]');
  return form;
}
