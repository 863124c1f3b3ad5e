import { randomUUID } from "node:crypto";
import { Temporal } from "temporal-polyfill";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { Outcome } from "@/lib/domain/refusal";
import type { Who } from "@/lib/server/who";

/** Import after useFreshDatabase: the commands read the environment when they are loaded. */
const { createCasting } = await import("@/lib/server/commands/create-casting");
const { bookRun } = await import("@/lib/server/commands/book-run");
const { findTime } = await import("@/lib/server/queries/find-time");

export const PEBBLE: CastingInput = {
  glass: "lead-crystal-45",
  piece: { shape: "ball", sizeMm: [80] },
  cooling: "all-round",
  mould: { wallMm: 30, plasterSilicaWater: [1, 1, 1] },
  feeder: { diameterMm: 30, lengthMm: 40 },
  stress: "careful",
};

export function must<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.problems.map((problem) => problem.message).join(" "));
  return outcome.value;
}

export function codeOf(outcome: Outcome<unknown>): string {
  return outcome.ok ? "ok" : outcome.problems[0].code;
}

export async function describedCasting(who: Who, title = "Pebble", input: CastingInput = PEBBLE): Promise<string> {
  return must(await createCasting(who, { title, input, neededBy: null, requestKey: randomUUID() })).castingId;
}

export type OfferInput = { readonly castingId: string; readonly kilnId: string; readonly kilnFrom: string; readonly steamFrom?: string };

/** The earliest run that a kiln offers this casting, as the booking form posts it. */
export async function firstOffer(who: Who, castingId: string, kilnId: string, at = 0): Promise<OfferInput> {
  const screen = await findTime(who, { castingId });
  const run = screen?.offers.kilns.find((kiln) => kiln.kilnId === kilnId)?.runs[at];
  if (run === undefined) throw new Error("nothing offered");
  return { castingId, kilnId, kilnFrom: run.kilnFrom, ...(run.steamFrom === null ? {} : { steamFrom: run.steamFrom }) };
}

export async function bookedRun(who: Who, kilnId: string, title?: string, at = 0): Promise<{ castingId: string; firingId: string }> {
  const castingId = await describedCasting(who, title);
  const { firingId } = must(await bookRun(who, { ...(await firstOffer(who, castingId, kilnId, at)), requestKey: randomUUID() }));
  return { castingId, firingId };
}

export function later(iso: string, days: number): string {
  return Temporal.Instant.from(iso).add({ hours: 24 * days }).toString();
}
