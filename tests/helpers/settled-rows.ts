import { randomUUID } from "node:crypto";
import type pg from "pg";
import { DirectTx } from "@/lib/server/direct/direct-tx";
import { later, must } from "./booking";
import { makeWorkshop } from "./scenario";

/** Import after useFreshDatabase. */
const { acceptSettlement } = await import("@/tests/helpers/checked-accept");
const { firingScreen } = await import("@/lib/server/queries/firing");
const { clashGround } = await import("@/lib/server/ways-out/ways-out");
const { objectionsTo } = await import("@/lib/server/ways-out/verify-settlement");
const { bookedRun } = await import("./booking");
const { shared } = await import("./sharing");

/** A shared firing on the north kiln and a run on the south one, both put a fortnight later by a settlement; and a run of the south kiln that stays. */
export async function settledWorkshop(ownerUrl: string) {
  const made = await makeWorkshop(ownerUrl, { powerLimitKw: 20 });
  const { member, otherMember, manager, northKiln, southKiln, workshopId } = made;
  const { firingId: gull } = await shared(member, otherMember, northKiln.equipmentId);
  const { firingId: seal } = await bookedRun(member, southKiln.equipmentId, "Seal", 3);
  const { firingId: stays } = await bookedRun(otherMember, southKiln.equipmentId, "Wave");
  const to = async (runId: string) => {
    const kiln = (await firingScreen(manager, runId))?.kiln;
    return { runId, kilnId: kiln?.id ?? "", kilnFrom: later(kiln?.from ?? "", 14) };
  };
  const { fingerprint } = await clashGround(manager, undefined);
  const moves = [await to(gull), await to(seal)];
  const { settlementId } = must(await acceptSettlement(manager, { kind: "by-hand", fingerprint, reason: "The hall is painted in that week.", requestKey: randomUUID(), moves }));
  return { ...made, workshopId, settlementId, gull, seal, stays };
}

/** What the check says when this was done to the rows behind everybody's back, triggers and constraints included; then it is undone. */
export async function objectionsAfter(owner: pg.Client, { workshopId, settlementId }: { readonly workshopId: string; readonly settlementId: string }, plants: readonly string[]) {
  const tx = await DirectTx.begin(owner as unknown as pg.PoolClient, workshopId, [], "each");
  try {
    await owner.query("ALTER TABLE booking DROP CONSTRAINT booking_no_overlap");
    await owner.query("SET LOCAL session_replication_role = replica");
    for (const plant of plants) {
      const { rowCount } = await owner.query(plant);
      if (!((rowCount ?? 0) > 0)) throw new Error(`nothing was changed by: ${plant}`);
    }
    await owner.query("SET LOCAL ROLE lehrbook_app");
    return await objectionsTo(tx, settlementId);
  } finally {
    await owner.query("ROLLBACK");
  }
}
