import { randomUUID } from "node:crypto";
import { showTime } from "@/lib/domain/time/show-time";
import { writeAudits, type AuditEntry } from "@/lib/server/audit";
import { toInstant } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
import { titleOf } from "@/lib/server/rows/firing-title";
import { othersIn } from "@/lib/server/rows/in-firing";
import { kilnOf } from "@/lib/server/rows/kiln-of";
import { bookingsForRecord } from "@/lib/server/runs/end-run";
import { lapseJoining } from "@/lib/server/runs/lapse-joining";
import { movedText } from "@/lib/server/runs/move-firing";
import { bookedText } from "@/lib/server/runs/open-firing";
import { replaceRuns } from "@/lib/server/runs/replace-runs";
import { takePlans } from "@/lib/server/runs/take-plan";
import { writeNewFirings } from "@/lib/server/runs/write-new-firings";
import { runForRecord } from "@/lib/server/runs/write-run";
import { tellAll, type News } from "@/lib/server/tell";
import type { PlacedMove } from "@/lib/server/ways-out/place-moves";

export type CarriedOut = { readonly runId: string; readonly kilnId: string; readonly kilnFrom: string; readonly kilnTo: string };

/** A move as it was made, for the record: of which firing, where it stood before, and who was told of it. */
export type MadeMove = CarriedOut & {
  readonly firingId: string;
  readonly title: string;
  readonly from: { readonly kilnId: string; readonly kilnFrom: string } | null;
  readonly told: readonly string[];
};

export type Said = {
  readonly reason: string;
  /** Where those who are told may look. */
  readonly href: string;
};

/** What is written of one move besides its rows. */
type Written = { readonly made: MadeMove; readonly audit: AuditEntry; readonly news: News };
type Moving = PlacedMove & { readonly moving: NonNullable<PlacedMove["moving"]> };
type Asked = PlacedMove & { readonly ask: NonNullable<PlacedMove["ask"]>; readonly planId: string; readonly firingId: string };

/**
 * Writes moves that were placed, all kinds of rows together: what moved gives up its places first, then all get their
 * new ones, with their plans, check sheets and records; and everybody concerned is told. Behind lockCalendar, with the
 * rows of its firings and asks locked.
 */
export async function writeMoves(ctx: Ctx, placed: readonly PlacedMove[], said: Said): Promise<readonly MadeMove[]> {
  const moving = placed.filter((one): one is Moving => one.moving !== null);
  await lapseJoinings(ctx, moving);
  await takePlans(ctx, moving.filter((one) => kilnOf(one.moving.firing)?.equipmentId !== one.placed.kiln.equipmentId).map((one) => ({ firing: one.moving.firing, placed: one.placed })));
  await replaceRuns(ctx, moving.map(({ moving: { firing, keptBookings, keptLifts }, placed: { run, plan } }) => ({ firingId: firing.firingId, castingId: firing.plan.castingId, keptBookings, keptLifts, run, plan })));
  const asked = placed.flatMap((one): Asked[] => (one.ask === null ? [] : [{ ...one, ask: one.ask, planId: randomUUID(), firingId: randomUUID() }]));
  await writeNewFirings(ctx, asked.map(({ planId, firingId, ask: { casting }, placed: found }) => ({ planId, firingId, castingId: casting.castingId, memberId: casting.memberId, placed: found })));
  const of = new Map([...moving.map((one) => [one.move.runId, movedOf(ctx, one, said)] as const), ...asked.map((one) => [one.move.runId, bookedOf(ctx, one, said)] as const)]);
  const written = placed.flatMap(({ move }) => of.get(move.runId) ?? []);
  await writeAudits(ctx.tx, ctx.who, ctx.now, "accept-settlement", written.map(({ audit }) => audit));
  await tellAll(ctx, written.map(({ news }) => news).filter(({ to }) => to.length > 0));
  return written.map(({ made }) => made);
}

async function lapseJoinings(ctx: Ctx, moving: readonly Moving[]): Promise<void> {
  const open = await ctx.tx.joining.findMany({ where: { firingId: { in: moving.map((one) => one.moving.firing.firingId) }, status: "open" }, select: { firingId: true } });
  for (const { firingId } of open) {
    const firing = moving.find((one) => one.moving.firing.firingId === firingId)?.moving.firing;
    if (firing !== undefined) await lapseJoining(ctx, firing, "the firing was moved");
  }
}

function movedOf({ who }: Ctx, { move, placed, moving: { firing } }: Moving, { reason, href }: Said): Written {
  const { firingId } = firing;
  const stood = kilnOf(firing);
  const told = othersIn(firing, who.memberId);
  return {
    made: { ...timesOf(move.runId, placed), firingId, title: titleOf(firing.plan), from: stood === undefined ? null : { kilnId: stood.equipmentId, kilnFrom: toInstant(stood.startsAt).toString() }, told },
    audit: { subject: "firing", subjectId: firingId, before: { bookings: bookingsForRecord(firing) }, after: runForRecord(placed.run), reason },
    news: { to: told, kind: "moved", text: `${who.name} ${movedText(firing, placed, who.timeZone)}`, reason, href },
  };
}

function bookedOf({ who }: Ctx, { move, placed, ask: { casting }, planId, firingId }: Asked, { reason, href }: Said): Written {
  const { castingId, memberId, title } = casting;
  const told = memberId === who.memberId ? [] : [memberId];
  return {
    made: { ...timesOf(move.runId, placed), firingId, title, from: null, told },
    audit: { subject: "firing", subjectId: firingId, after: { status: "planned", castingId, planId, ...runForRecord(placed.run) }, reason },
    news: { to: told, kind: "booked", text: bookedText(who.name, placed.kiln.name, showTime(placed.run.kilnFrom, who.timeZone), title), reason, href },
  };
}

export function timesOf(runId: string, { run }: PlacedMove["placed"]): CarriedOut {
  return { runId, kilnId: run.kilnId, kilnFrom: run.kilnFrom.toString(), kilnTo: run.kilnTo.toString() };
}
