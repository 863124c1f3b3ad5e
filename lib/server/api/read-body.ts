import type { ProblemType } from "@/lib/contracts/api/problem-types";
import type { Problem } from "@/lib/domain/refusal";

/** A casting with a whole glass of one's own is a few KiB. */
export const MOST_BODY_BYTES = 64 * 1024;
/** No contract goes as deep; what is deeper was made to make trouble. */
export const MOST_DEPTH = 32;

export type BodyRead = { readonly ok: true; readonly value: unknown } | { readonly ok: false; readonly type: ProblemType; readonly problems: readonly Problem[] };

const no = (type: ProblemType, ...problems: readonly Problem[]): BodyRead => ({ ok: false, type, problems });
const malformed = (message: string): BodyRead => no("malformed", { code: "malformed", message });

/** The JSON that a request carries: of the right kind, not too large, not too deep; nothing at all is an empty object. It is not held against a contract yet. */
export async function readBody(request: Request): Promise<BodyRead> {
  const kind = request.headers.get("content-type");
  if (request.headers.has("content-encoding") || (kind !== null && !isJson(kind))) return no("not-json");
  if (Number(request.headers.get("content-length") ?? 0) > MOST_BODY_BYTES) return no("too-large");
  const bytes = await bytesOf(request);
  if (bytes === undefined) return no("too-large");
  if (kind === null) return bytes.length === 0 ? { ok: true, value: {} } : no("not-json");
  return parsed(bytes);
}

function isJson(contentType: string): boolean {
  const [kind = "", ...parameters] = contentType.split(";");
  const charset = /charset="?([\w-]+)/i.exec(parameters.join(";"))?.[1]?.toLowerCase() ?? "utf-8";
  return kind.trim().toLowerCase() === "application/json" && charset === "utf-8";
}

function parsed(bytes: Uint8Array): BodyRead {
  try {
    const value: unknown = JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(bytes));
    return isTooDeep(value) ? malformed(`The body is nested more than ${MOST_DEPTH} deep.`) : { ok: true, value };
  } catch {
    return malformed(bytes.length === 0 ? "The body is empty; it must be JSON." : "The body is not JSON in UTF-8.");
  }
}

/** Stops reading where too much has come, whatever the length was said to be. */
async function bytesOf(request: Request): Promise<Uint8Array | undefined> {
  const chunks: Uint8Array[] = [];
  let length = 0;
  const reader = request.body?.getReader();
  for (let part = await reader?.read(); part?.done === false; part = await reader?.read()) {
    length += part.value.length;
    if (length > MOST_BODY_BYTES) {
      await reader?.cancel();
      return undefined;
    }
    chunks.push(part.value);
  }
  return Buffer.concat(chunks);
}

/** Level by level, because a body made to overflow the stack must not. */
function isTooDeep(value: unknown): boolean {
  let level = [value].filter(isContainer);
  for (let depth = 1; level.length > 0; depth += 1) {
    if (depth > MOST_DEPTH) return true;
    level = level.flatMap((one) => Object.values(one)).filter(isContainer);
  }
  return false;
}

function isContainer(value: unknown): value is object {
  return typeof value === "object" && value !== null;
}
