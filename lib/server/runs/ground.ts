import { Temporal } from "temporal-polyfill";
import type { NotShown } from "@/lib/domain/booking/run-question";
import { wholeGround, type WholeGround } from "@/lib/server/rows/kept-ground";
import type { Statements } from "@/lib/server/statements";
import type { Place } from "@/lib/server/who";

/** What every run of a workshop stands on: its equipment, hours, outages and limits, and what the casting's owner was shown. */
export type Ground = Omit<WholeGround, "shownTo"> & { readonly notShown: NotShown | undefined };

export type GroundOf = {
  readonly from: Temporal.Instant;
  readonly ownerId?: string | undefined;
  /** Leaves the other kilns out. */
  readonly kilnId?: string | undefined;
};

export async function loadGround(tx: Statements, who: Place, { from, ownerId, kilnId }: GroundOf): Promise<Ground> {
  const { shownTo, ...ground } = await wholeGround(tx, who, from);
  return {
    ...ground,
    equipment: kilnId === undefined ? ground.equipment : ground.equipment.filter((piece) => piece.kind !== "kiln" || piece.equipmentId === kilnId),
    outages: ground.outages.filter(({ end }) => Temporal.Instant.compare(end, from) > 0),
    notShown: ownerId === undefined ? undefined : await notShown(tx, shownTo, ownerId),
  };
}

async function notShown(tx: Statements, shownTo: WholeGround["shownTo"], ownerId: string): Promise<NotShown | undefined> {
  const kilnIds = new Set([...shownTo].filter(([, members]) => !members.has(ownerId)).map(([kilnId]) => kilnId));
  if (kilnIds.size === 0) return undefined;
  const [owner] = await tx.$queryRaw<readonly { readonly name: string }[]>`SELECT name FROM member WHERE workshop_id = current_workshop() AND member_id = ${ownerId}::uuid`;
  return owner === undefined ? undefined : { person: owner.name, kilnIds };
}
