import type { Temporal } from "temporal-polyfill";
import { paths } from "@/lib/contracts/paths";
import { can } from "@/lib/domain/access/roles";
import { nextStaffedDay } from "@/lib/domain/time/staffed-hours";
import { toDate } from "@/lib/server/clock";
import { query, type Reading } from "@/lib/server/query";
import { castingsWithNext, type CastingLine } from "@/lib/server/rows/castings-with-next";
import { joiningsWaiting, type JoiningWaiting } from "@/lib/server/rows/joinings-waiting";
import { notLapsed } from "@/lib/server/rows/not-lapsed";
import { noticesOf, type NoticeLine } from "@/lib/server/rows/notices";
import { answersWanted, objections, type SettlementWaiting } from "@/lib/server/rows/settlement-answers";
import { sheetsDue, type SheetDue } from "@/lib/server/rows/sheets-due";
import { loadHours } from "@/lib/server/rows/workshop-hours";

export type HeavyLifts = { readonly day: string; readonly lifts: number; readonly heavy: number };

/** What waits for this person. A part that is none of their roles' business is null. */
export type HomeScreen = {
  readonly nowMs: number;
  /** The newest of them, but for those of held runs. */
  readonly unread: readonly NoticeLine[];
  /** Unread ones that tell of this person's held runs. */
  readonly ofHeld: readonly NoticeLine[];
  readonly castings: readonly CastingLine[] | null;
  readonly sheets: readonly SheetDue[];
  /** Proposals to share a firing that wait for this person's answer. */
  readonly joinings: readonly JoiningWaiting[];
  /** Settlements that moved this person's runs and wait for an answer. */
  readonly answersWanted: readonly SettlementWaiting[];
  /** For managers: who objects to a settlement, while it stands. */
  readonly objections: readonly SettlementWaiting[] | null;
  /** Of the next staffed day. */
  readonly heavyLifts: HeavyLifts | null;
  readonly pendingInvitations: number | null;
};

export const readHome = query<undefined, HomeScreen>({
  name: "home",
  needs: "see-workshop",
  run: async (reading) => {
    const { who, tx, now } = reading;
    const castings = can(who.roles, "write-castings") ? await castingsWithNext(tx, now, who.memberId) : null;
    const held = (castings ?? []).flatMap(({ heldUntilMs, firingId }) => (heldUntilMs === null || firingId === null ? [] : [paths.firing(firingId)]));
    const helps = who.roles.includes("assistant") || can(who.roles, "manage-runs");
    return {
      nowMs: now.epochMilliseconds,
      unread: await noticesOf(tx, who.memberId, { unreadOnly: true, atMost: 5, besides: held }),
      ofHeld: held.length === 0 ? [] : await noticesOf(tx, who.memberId, { unreadOnly: true, atMost: 50, about: held }),
      castings,
      sheets: await sheetsDue(tx, dayAfterTomorrow(reading), helps ? undefined : who.memberId),
      joinings: await joiningsWaiting(tx, who.memberId, now),
      answersWanted: await answersWanted(tx, who.memberId, now),
      objections: can(who.roles, "settle-clashes") ? await objections(tx, now) : null,
      heavyLifts: helps ? await heavyLifts(reading) : null,
      pendingInvitations: can(who.roles, "manage-people")
        ? await tx.invitation.count({ where: { usedAt: null, withdrawnAt: null, expiresAt: { gt: toDate(now) } } })
        : null,
    };
  },
});

function dayAfterTomorrow({ who, now }: Reading): Temporal.Instant {
  return now.toZonedDateTimeISO(who.timeZone).toPlainDate().add({ days: 2 }).toZonedDateTime(who.timeZone).toInstant();
}

async function heavyLifts({ who, tx, now }: Reading): Promise<HeavyLifts | null> {
  const today = now.toZonedDateTimeISO(who.timeZone).toPlainDate();
  const day = nextStaffedDay(await loadHours(tx, who), today);
  if (day === null) return null;
  const from = toDate(day.toZonedDateTime(who.timeZone).toInstant());
  const to = toDate(day.add({ days: 1 }).toZonedDateTime(who.timeZone).toInstant());
  const lifts = await tx.lift.findMany({ where: { standing: true, firing: notLapsed(now), startsAt: { lt: to }, endsAt: { gt: from } }, select: { flag: true } });
  return { day: day.toString(), lifts: lifts.length, heavy: lifts.filter((lift) => lift.flag !== "none").length };
}
