import { RULE } from "@/lib/domain/asking/order";
import { can } from "@/lib/domain/access/roles";
import { HOURS_PER_KILN_WEEK } from "@/lib/domain/time/kiln-weeks";
import { toInstant } from "@/lib/server/clock";
import { query } from "@/lib/server/query";
import { asksInOrder, firstDayOf, type AskInOrder } from "@/lib/server/rows/waiting-asks";
import { isOver } from "@/lib/domain/booking/hold";
import type { Temporal } from "temporal-polyfill";

export type AskOffer = { readonly firingId: string; readonly kilnName: string; readonly kilnFromMs: number; readonly untilMs: number };

export type AskLine = {
  readonly askId: string;
  readonly castingId: string;
  readonly title: string;
  readonly owner: string;
  readonly mine: boolean;
  /** Null: any kiln that fits. */
  readonly kilnName: string | null;
  /** ISO days. */
  readonly notBefore: string | null;
  readonly neededBy: string | null;
  readonly lateDays: number;
  readonly importance: number;
  readonly note: string;
  readonly place: number;
  readonly because: string;
  /** With a decimal; the whole ones count. */
  readonly kilnWeeks: number;
  readonly weeksWaited: number;
  readonly askedMs: number;
  readonly offer: AskOffer | null;
  /** Its member holds or has booked a run of their own meanwhile. */
  readonly holdsItself: boolean;
  readonly turnedDown: number;
};

export type AsksScreen = {
  readonly nowMs: number;
  readonly today: string;
  readonly waiting: number;
  readonly mine: readonly AskLine[];
  /** Everybody's in their order; null for who does not settle clashes. */
  readonly all: readonly AskLine[] | null;
  readonly rule: readonly string[];
  readonly holdsEach: number;
};

/** One's own asks with their place and why; for who settles clashes, everybody's. */
export const asksScreen = query<undefined, AsksScreen>({
  name: "asks",
  needs: "book-runs",
  run: async ({ tx, who, now }) => {
    const lines = (await asksInOrder(tx, now, who.timeZone)).map((placed) => lineOf(placed, who, now));
    return {
      nowMs: now.epochMilliseconds,
      today: now.toZonedDateTimeISO(who.timeZone).toPlainDate().toString(),
      waiting: lines.length,
      mine: lines.filter(({ mine }) => mine),
      all: can(who.roles, "settle-clashes") ? lines : null,
      rule: RULE,
      holdsEach: (await tx.workshop.findUniqueOrThrow({ where: { workshopId: who.workshopId } })).holdsEach,
    };
  },
});

function lineOf({ ask, place, because, weeksWaited }: AskInOrder, who: { readonly memberId: string; readonly timeZone: string }, now: Temporal.Instant): AskLine {
  const { row } = ask;
  const offered = row.offers.find((one) => one.status === "held" && one.heldUntil !== null && !isOver(toInstant(one.heldUntil), now));
  const kiln = offered?.bookings[0];
  return {
    askId: row.askId,
    castingId: row.castingId,
    title: ask.title,
    owner: ask.owner,
    mine: row.memberId === who.memberId,
    kilnName: row.kiln?.name ?? null,
    notBefore: firstDayOf(row, who.timeZone)?.toString() ?? null,
    neededBy: ask.neededBy?.toString() ?? null,
    lateDays: row.lateDays,
    importance: row.importance,
    note: row.note,
    place,
    because,
    kilnWeeks: ask.kilnHours / HOURS_PER_KILN_WEEK,
    weeksWaited,
    askedMs: row.createdAt.getTime(),
    offer: offered === undefined || kiln === undefined
      ? null
      : { firingId: offered.firingId, kilnName: kiln.equipment.name, kilnFromMs: kiln.startsAt.getTime(), untilMs: offered.heldUntil?.getTime() ?? 0 },
    holdsItself: row.casting.firings.some(({ firing }) => firing.askId !== row.askId),
    turnedDown: row.offers.length - (offered === undefined ? 0 : 1),
  };
}
