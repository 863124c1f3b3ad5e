import { randomUUID } from "node:crypto";
import type { Temporal } from "temporal-polyfill";
import type { Casting } from "@/lib/contracts/casting";
import type { ReadMesh } from "@/lib/contracts/mesh";
import { can } from "@/lib/domain/access/roles";
import type { KilnToPlan } from "@/lib/domain/firing/for-kiln";
import type { CostGround } from "@/lib/domain/tariff/starts";
import { query } from "@/lib/server/query";
import { costGround } from "@/lib/server/rows/cost-ground";
import { castingOf } from "@/lib/server/rows/casting";
import type { Who } from "@/lib/server/who";
import { castingsWithNext, type CastingLine } from "@/lib/server/rows/castings-with-next";
import { loadEquipment } from "@/lib/server/rows/equipment";
import { MESH_COLUMNS, storedMesh } from "@/lib/server/rows/mesh";
import { kilnsToPlan } from "@/lib/server/rows/kilns-to-plan";

export type CastingScreen = {
  readonly castingId: string;
  readonly version: number;
  readonly casting: Casting;
  /** The mesh that its piece is given by, if it is. */
  readonly mesh: ReadMesh | null;
  readonly owner: string;
  readonly mine: boolean;
  readonly next: CastingLine;
  readonly kilns: readonly KilnToPlan[];
  readonly costs: CostGround;
  /** Today in the workshop, ISO. */
  readonly today: string;
};

/** A casting to look at and change; null when there is none, it is withdrawn, or it is not this person's. */
export const readCastingScreen = query({
  name: "casting",
  needs: "write-castings",
  run: async (reading, castingId: string): Promise<CastingScreen | null> => {
    const { who, tx, now } = reading;
    const row = await tx.casting.findFirst({ where: { castingId, withdrawnAt: null }, include: { member: { select: { name: true } }, mesh: { select: MESH_COLUMNS } } });
    if (row === null) return null;
    const mine = row.memberId === who.memberId;
    if (!mine && !can(who.roles, "manage-runs")) return null;
    const lines = await castingsWithNext(tx, now, row.memberId);
    const next = lines.find((line) => line.castingId === castingId);
    if (next === undefined) return null;
    return {
      castingId,
      version: row.version,
      casting: castingOf(row),
      mesh: row.mesh === null ? null : storedMesh(row.mesh),
      owner: row.member.name,
      mine,
      next,
      kilns: await kilnsToPlan(tx, await loadEquipment(tx)),
      costs: await costGround(reading),
      today: todayOf(now, who),
    };
  },
});

export type NewCastingScreen = { readonly kilns: readonly KilnToPlan[]; readonly costs: CostGround; readonly requestKey: string; readonly today: string };

/** An empty form: the kilns to hold it against, and a key that makes a doubled click describe one casting. */
export const readNewCasting = query<undefined, NewCastingScreen>({
  name: "new-casting",
  needs: "write-castings",
  run: async (reading) => ({
    kilns: await kilnsToPlan(reading.tx, await loadEquipment(reading.tx)),
    costs: await costGround(reading),
    requestKey: randomUUID(),
    today: todayOf(reading.now, reading.who),
  }),
});

function todayOf(now: Temporal.Instant, who: Who): string {
  return now.toZonedDateTimeISO(who.timeZone).toPlainDate().toString();
}
