import { randomUUID } from "node:crypto";
import { NOTHING_ASKED, type AskedWays } from "@/lib/contracts/ways-out";
import type { WayOut, WaysOut } from "@/lib/server/ways-out/ways-out";
import type { Who } from "@/lib/server/who";
import { bookedRun, must } from "./booking";
import { makeWorkshop, type WorkshopWish } from "./scenario";

/** Import after useFreshDatabase: the commands read the environment when they are loaded. */
const { beginOutage } = await import("@/lib/server/commands/begin-outage");
const { firingScreen } = await import("@/lib/server/queries/firing");
const { waysOut } = await import("@/lib/server/ways-out/ways-out");

export const SETTLED_REASON = "New elements are fitted in that week.";

export const askedWays = async (who: Who, wished: Partial<AskedWays> = {}): Promise<WaysOut> => must(await waysOut(who, { asked: { ...NOTHING_ASKED, ...wished }, iterations: 100 }));

/** What the page would post to accept a way. */
export const accepting = (found: WaysOut, way: WayOut | undefined, requestKey: string = randomUUID()) => ({
  kind: way?.aim,
  moves: (way?.times ?? []).map(({ runId, kilnId, kilnFrom }) => ({ runId, kilnId, kilnFrom })),
  fingerprint: found.fingerprint,
  reason: SETTLED_REASON,
  requestKey,
});

/** Two runs one after the other on the north kiln, which breaks during both. */
export async function brokenKiln(ownerUrl: string, wish: WorkshopWish = {}) {
  const made = await makeWorkshop(ownerUrl, wish);
  const { member, otherMember, manager, northKiln } = made;
  const first = await bookedRun(member, northKiln.equipmentId, "First");
  const second = await bookedRun(otherMember, northKiln.equipmentId, "Second");
  const kiln = (await firingScreen(member, first.firingId))?.kiln;
  const from = new Date(Date.parse(kiln?.from ?? "") + 3 * 3_600_000).toISOString().slice(0, 16);
  const to = new Date(Date.parse(kiln?.from ?? "") + 20 * 86_400_000).toISOString().slice(0, 16);
  must(await beginOutage(manager, { equipmentId: northKiln.equipmentId, from, to, reason: "a burnt element" }));
  return { ...made, first, second };
}
