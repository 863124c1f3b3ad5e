import { randomUUID } from "node:crypto";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { Who } from "@/lib/server/who";

/** Import after useFreshDatabase. */
const { proposeJoining } = await import("@/lib/server/commands/propose-joining");
const { answerJoining } = await import("@/lib/server/commands/answer-joining");
const { firingScreen } = await import("@/lib/server/queries/firing");
const { bookedRun, describedCasting, must, PEBBLE } = await import("@/tests/helpers/booking");

/** Twice as thick as PEBBLE: it makes a joined firing longer. */
export const BOULDER: CastingInput = { ...PEBBLE, piece: { shape: "ball", sizeMm: [130] } };

export async function versionOf(who: Who, firingId: string): Promise<number> {
  const screen = await firingScreen(who, firingId);
  if (screen === null) throw new Error("no such firing");
  return screen.version;
}

export async function propose(who: Who, firingId: string, castingId: string) {
  return proposeJoining(who, { firingId, castingId, version: await versionOf(who, firingId), requestKey: randomUUID() });
}

/** The third offer: days are left to steam another mould. */
export const LATER = 2;

/** A run of the host's and a casting that its owner proposes for it. */
export async function proposed(host: Who, guest: Who, kilnId: string, input: CastingInput = BOULDER) {
  const { firingId, castingId: hostCasting } = await bookedRun(host, kilnId, "Gull", LATER);
  const guestCasting = await describedCasting(guest, "Tern", input);
  const { joiningId } = must(await propose(guest, firingId, guestCasting));
  return { firingId, hostCasting, guestCasting, joiningId };
}

/** The same, accepted. */
export async function shared(host: Who, guest: Who, kilnId: string, input: CastingInput = BOULDER) {
  const made = await proposed(host, guest, kilnId, input);
  must(await answerJoining(host, { joiningId: made.joiningId, accepts: true }));
  return made;
}
