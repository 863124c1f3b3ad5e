import { createHash } from "node:crypto";
import { MOST_MESH_BYTES, MOST_MESH_MB } from "@/lib/contracts/mesh";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { MESH_UNITS, MESH_UPS } from "@/lib/domain/shape/mesh/turned";
import { NOT_ALLOWED, NOT_SIGNED_IN } from "@/lib/server/command";
import { can } from "@/lib/domain/access/roles";
import { sendMesh } from "@/lib/server/commands/send-mesh";
import type { Who } from "@/lib/server/who";
import { queueIsFull, queueMesh } from "./mesh-queue";

/** The file itself is the request's body; its name, unit and upward side stand in the address. */
export async function receiveMesh(who: Who | null, request: Request): Promise<Outcome<{ readonly meshId: string }>> {
  // Asked before 40 MB are taken in; the command asks again.
  if (who === null) return refuse(NOT_SIGNED_IN);
  if (!can(who.roles, "write-castings")) return refuse(NOT_ALLOWED);
  const full = queueIsFull();
  if (full !== undefined) return full;
  const received = await bytesOf(request);
  if (!received.ok) return received;
  const bytes = received.value;
  const asked = new URL(request.url).searchParams;
  const sent = { fileName: asked.get("name") ?? "", fileBytes: bytes.length, sha256: createHash("sha256").update(bytes).digest("hex"), unit: asked.get("unit"), up: asked.get("up") };
  const outcome = await sendMesh(who, sent);
  const unit = MESH_UNITS.find((one) => one === sent.unit);
  const up = MESH_UPS.find((one) => one === sent.up);
  if (outcome.ok && unit !== undefined && up !== undefined) queueMesh({ who, meshId: outcome.value.meshId, fileName: sent.fileName, bytes, unit, up });
  return outcome;
}

/** Stops reading as soon as there is more than is allowed, whatever the request said of its length. */
async function bytesOf(request: Request): Promise<Outcome<Uint8Array>> {
  const told = Number(request.headers.get("content-length") ?? "0");
  if (told > MOST_MESH_BYTES) return tooLarge(told);
  const parts: Uint8Array[] = [];
  let length = 0;
  const reader = request.body?.getReader();
  for (let part = await reader?.read(); part?.value !== undefined; part = await reader?.read()) {
    parts.push(part.value);
    length += part.value.length;
    if (length <= MOST_MESH_BYTES) continue;
    await reader?.cancel();
    return tooLarge(length);
  }
  const bytes = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return ok(bytes);
}

function tooLarge(bytes: number): Outcome<never> {
  const megabytes = Math.ceil((10 * bytes) / 1024 / 1024) / 10;
  return refuse({ code: "too-large", field: "piece.file", value: megabytes, allowed: `up to ${MOST_MESH_MB} MB`, message: `The file has ${megabytes} MB; up to ${MOST_MESH_MB} MB are read. Save it as binary STL, or with fewer triangles: 200 000 (10 MB) are plenty.` });
}
