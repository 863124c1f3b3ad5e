import { PROBLEM_TYPES, type ProblemDocument, type ProblemEntry, type ProblemType } from "@/lib/contracts/api/problem-types";
import type { Problem } from "@/lib/domain/refusal";
import { env } from "@/lib/server/env";

/** Nothing of the interface may be kept by anything between it and the script. */
export const NOT_KEPT = { "Cache-Control": "no-store" } as const;

/** A refusal as RFC 9457 has it. Without problems of its own the kind of refusal speaks for itself. */
export function problemResponse(type: ProblemType, request: Request, problems: readonly Problem[] = [], headers: Readonly<Record<string, string>> = {}): Response {
  const { status, title, says } = PROBLEM_TYPES[type];
  const document: ProblemDocument = {
    type: problemAddress(type),
    title,
    status,
    detail: problems.length === 0 ? says : problems.map(({ message }) => message).join(" "),
    instance: new URL(request.url).pathname,
    problems: problems.map(entryOf),
  };
  return new Response(JSON.stringify(document), { status, headers: { ...NOT_KEPT, "Content-Type": "application/problem+json", ...headers } });
}

/** Where a script's author can read what a kind of refusal means. */
export function problemAddress(type: ProblemType): string {
  return `${env().publicUrl}/api/v1/problems/${type}`;
}

/** What the domain calls otherwise than the interface. */
const FIELDS: ReadonlyMap<string, string> = new Map([["kilnStart", "kilnFrom"], ["requestKey", "Idempotency-Key"]]);

function entryOf({ code, message, field, value, allowed, data = {} }: Problem): ProblemEntry {
  const text = (key: string) => (typeof data[key] === "string" ? data[key] : undefined);
  const holder = text("holder");
  const heldBy = Array.isArray(data["holders"]) ? data["holders"].filter((one) => typeof one === "string") : holder === undefined ? undefined : [holder];
  const entry: { [K in keyof ProblemEntry]: ProblemEntry[K] | undefined } = {
    code, message, value, allowed, heldBy,
    field: field === undefined ? undefined : (FIELDS.get(field) ?? field),
    until: text("until"), nextKilnFrom: text("nextKilnStart"), equipmentId: text("equipmentId"), firingId: text("firingId"), id: text("id"),
  };
  return JSON.parse(JSON.stringify(entry));
}
