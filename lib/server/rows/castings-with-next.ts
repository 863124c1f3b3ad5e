import { whatsNext, type StandingRun, type WhatsNext } from "@/lib/domain/booking/whats-next";
import type { Purpose } from "@/lib/domain/booking/run-plan";
import type { Temporal } from "temporal-polyfill";
import { toInstant, toPlainDate } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";
import { notLapsed } from "@/lib/server/rows/not-lapsed";

/** One casting in a list. Instants as epoch milliseconds. */
export type CastingLine = {
  readonly castingId: string;
  readonly title: string;
  readonly memberId: string;
  readonly owner: string;
  /** An ISO day, or null. */
  readonly neededBy: string | null;
  readonly step: WhatsNext["step"];
  readonly atMs: number | null;
  readonly overdue: boolean;
  readonly firingId: string | null;
  /** Until when its run is only held; null when it is booked, or there is none. */
  readonly heldUntilMs: number | null;
  readonly kilnName: string | null;
};

/** Castings that are not withdrawn, of one member or of all, what needs doing first. */
export async function castingsWithNext(tx: Tx, now: Temporal.Instant, memberId?: string): Promise<readonly CastingLine[]> {
  const rows = await tx.casting.findMany({
    where: { withdrawnAt: null, ...(memberId === undefined ? {} : { memberId }) },
    select: {
      castingId: true, title: true, memberId: true, neededBy: true,
      member: { select: { name: true } },
      asks: { where: { status: "open" }, select: { askId: true, kiln: { select: { name: true } } } },
      firings: { where: { standing: true, firing: notLapsed(now) }, select: { firing: { include: { bookings: { where: { standing: true }, include: { equipment: { select: { name: true } } } } } } } },
    },
    orderBy: { createdAt: "desc" },
  });
  return rows
    .map(({ castingId, title, memberId: owner, neededBy, member, asks, firings }): CastingLine => {
      const firing = firings[0]?.firing;
      const next = whatsNext(firing === undefined ? null : standingRun(firing, castingId), asks.length > 0, now);
      const at = "at" in next ? next.at : null;
      const kiln = firing?.bookings.find((booking) => booking.purpose === "kiln")?.equipment ?? asks[0]?.kiln;
      return {
        castingId, title, memberId: owner, owner: member.name,
        neededBy: neededBy === null ? null : toPlainDate(neededBy).toString(),
        step: next.step,
        atMs: at?.epochMilliseconds ?? null,
        overdue: "overdue" in next && next.overdue,
        firingId: firing?.firingId ?? null,
        heldUntilMs: firing?.status === "held" ? (firing.heldUntil?.getTime() ?? null) : null,
        kilnName: kiln?.name ?? null,
      };
    })
    .sort(byUrgency);
}

type FiringRow = {
  readonly status: string;
  readonly expectedEnd: Date | null;
  readonly openedAt: Date | null;
  readonly bookings: readonly { readonly purpose: string; readonly castingId: string | null; readonly startsAt: Date; readonly endsAt: Date }[];
};

/** As it concerns one casting: the steam-outs of others in a shared firing are left out. */
export function standingRun({ status, expectedEnd, openedAt, bookings }: FiringRow, ofCasting: string): StandingRun {
  return {
    status: status === "started" || status === "opened" ? status : "planned",
    expectedEnd: expectedEnd && toInstant(expectedEnd),
    openedAt: openedAt && toInstant(openedAt),
    bookings: bookings.flatMap(({ purpose, castingId, startsAt, endsAt }) =>
      isPurpose(purpose) && (castingId === null || castingId === ofCasting) ? [{ purpose, start: toInstant(startsAt), end: toInstant(endsAt) }] : [],
    ),
  };
}

function isPurpose(purpose: string): purpose is Purpose {
  return ["steam-out", "load", "kiln", "unload"].includes(purpose);
}

/** Overdue, then without a run, then by when the next step is, then what is opened. */
function byUrgency(a: CastingLine, b: CastingLine): number {
  return rank(a) - rank(b) || (a.atMs ?? 0) - (b.atMs ?? 0) || (a.neededBy ?? "9999").localeCompare(b.neededBy ?? "9999");
}

function rank({ step, overdue }: CastingLine): number {
  if (overdue) return 0;
  if (step === "book-run") return 1;
  if (step === "opened") return 4;
  return step === "asked" ? 2 : 3;
}
