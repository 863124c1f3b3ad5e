import type { Temporal } from "temporal-polyfill";
import { paths } from "@/lib/contracts/paths";
import { can } from "@/lib/domain/access/roles";
import { barSegments, type BarSegment } from "@/lib/domain/booking/bar-segments";
import { findClashes } from "@/lib/domain/booking/clash";
import { clashWords } from "@/lib/domain/booking/clash-words";
import type { SeasonSpan } from "@/lib/domain/settling/clash/season";
import { toDate, toInstant } from "@/lib/server/clock";
import { query, type Reading } from "@/lib/server/query";
import { notLapsed } from "@/lib/server/rows/not-lapsed";
import { storedPlan } from "@/lib/server/rows/casting-plan";
import { loadClashState } from "@/lib/server/rows/clash-state";
import { isIn } from "@/lib/server/rows/in-firing";
import { PLAN_TITLE, titleOf } from "@/lib/server/rows/firing-title";

/** Twelve weeks: longer than the longest firing, short enough to be read at a glance. */
export const WALL_WEEKS = 12;

export type WallFiring = {
  readonly id: string;
  readonly kilnId: string;
  readonly startMs: number;
  readonly endMs: number;
  readonly title: string;
  readonly who: string;
  readonly mine: boolean;
  readonly status: "held" | "planned" | "started" | "done";
  /** Set while it is only held. */
  readonly heldUntilMs?: number;
  readonly href: string;
  readonly segments: readonly BarSegment[];
  /** In general words what cannot stand about it; the manager finds the rest among the clashes. */
  readonly trouble?: string;
};

export type KilnWallScreen = {
  readonly kilns: readonly { readonly id: string; readonly name: string }[];
  /** The first Monday in sight, as an ISO day of the workshop's own calendar. */
  readonly fromDay: string;
  readonly fromMs: number;
  readonly toMs: number;
  readonly nowMs: number;
  readonly weeks: number;
  readonly bars: readonly WallFiring[];
  readonly outages: readonly { readonly kilnId: string; readonly startMs: number; readonly endMs: number; readonly reason: string }[];
  /** Open asks: wished for, nothing held. */
  readonly ghosts: readonly WallFiring[];
};

type Window = { readonly from: Temporal.Instant; readonly to: Temporal.Instant };

/** All kilns over twelve weeks from the Monday of the given day's week; without a day, of this week. */
export const kilnWall = query({
  name: "kiln-wall",
  needs: "see-workshop",
  run: async (reading: Reading, day: Temporal.PlainDate | null) => wallOver(reading, mondayOf(day ?? reading.now.toZonedDateTimeISO(reading.who.timeZone).toPlainDate()), WALL_WEEKS),
});

/** All kilns over a whole season, from the Monday of its first week up to the Sunday of its last. */
export const seasonWall = query({
  name: "season-wall",
  needs: "settle-clashes",
  run: async (reading: Reading, { from, to }: SeasonSpan) => {
    const monday = mondayOf(from);
    return wallOver(reading, monday, Math.ceil((monday.until(to, { largestUnit: "days" }).days + 1) / 7));
  },
});

async function wallOver(reading: Reading, monday: Temporal.PlainDate, weeks: number): Promise<KilnWallScreen> {
  const { who, tx, now } = reading;
  const window = {
    from: monday.toZonedDateTime(who.timeZone).toInstant(),
    to: monday.add({ weeks }).toZonedDateTime(who.timeZone).toInstant(),
  };
  const troubles = await troublesOf(reading);
  const bars = await firingsIn(reading, window, troubles);
  const busy = [...new Set(bars.map((bar) => bar.kilnId))];
  const kilns = await tx.equipment.findMany({
    where: { kind: "kiln", OR: [{ retiredAt: null }, { equipmentId: { in: busy } }] },
    select: { equipmentId: true, name: true },
    orderBy: { name: "asc" },
  });
  return {
    kilns: kilns.map(({ equipmentId, name }) => ({ id: equipmentId, name })),
    fromDay: monday.toString(),
    fromMs: window.from.epochMilliseconds,
    toMs: window.to.epochMilliseconds,
    nowMs: now.epochMilliseconds,
    weeks,
    bars,
    outages: await outagesIn(reading, window),
    ghosts: await asksIn(reading, window, troubles),
  };
}

function mondayOf(day: Temporal.PlainDate): Temporal.PlainDate {
  return day.subtract({ days: day.dayOfWeek - 1 });
}

/** Touching the window is not being in it, as everywhere. */
function overlapping({ from, to }: Window) {
  return { startsAt: { lt: toDate(to) }, endsAt: { gt: toDate(from) } };
}

async function firingsIn({ who, tx, now }: Reading, window: Window, troubles: Troubles): Promise<readonly WallFiring[]> {
  const rows = await tx.booking.findMany({
    where: { standing: true, purpose: "kiln", firing: { status: { in: ["held", "planned", "started", "opened"] }, ...notLapsed(now) }, ...overlapping(window) },
    select: {
      equipmentId: true, startsAt: true, endsAt: true, firingId: true,
      firing: {
        select: {
          memberId: true, status: true, heldUntil: true, member: { select: { name: true } },
          plan: { select: { outputs: true, ...PLAN_TITLE } },
          castings: { where: { standing: true }, select: { casting: { select: { memberId: true } } } },
        },
      },
    },
    orderBy: { startsAt: "asc" },
  });
  return rows.map(({ firing, ...row }) => ({
    id: row.firingId,
    kilnId: row.equipmentId,
    startMs: row.startsAt.getTime(),
    endMs: row.endsAt.getTime(),
    title: titleOf(firing.plan),
    who: firing.member.name,
    mine: isIn(firing, who.memberId),
    status: statusOf(firing.status),
    ...(firing.status === "held" && firing.heldUntil !== null ? { heldUntilMs: firing.heldUntil.getTime() } : {}),
    href: paths.firing(row.firingId),
    segments: barSegments(storedPlan(firing.plan.outputs).firing.stages, toInstant(row.startsAt), toInstant(row.endsAt)),
    ...troubles.of(row.firingId),
  }));
}

function statusOf(status: string): WallFiring["status"] {
  if (status === "opened") return "done";
  return status === "started" || status === "held" ? status : "planned";
}

async function outagesIn({ tx }: Reading, { from, to }: Window): Promise<KilnWallScreen["outages"]> {
  const rows = await tx.outage.findMany({
    where: {
      withdrawnAt: null, equipment: { kind: "kiln" }, startsAt: { lt: toDate(to) },
      OR: [{ endsAt: null }, { endsAt: { gt: toDate(from) } }],
    },
    orderBy: { startsAt: "asc" },
  });
  return rows.map((row) => ({
    kilnId: row.equipmentId,
    startMs: row.startsAt.getTime(),
    endMs: row.endsAt?.getTime() ?? to.epochMilliseconds,
    reason: row.endsAt === null ? `${row.reason} (no end known)` : row.reason,
  }));
}

async function asksIn({ who, tx }: Reading, { from, to }: Window, troubles: Troubles): Promise<readonly WallFiring[]> {
  const rows = await tx.ask.findMany({
    where: { status: "open", wishedFrom: { lt: toDate(to) }, wishedTo: { gt: toDate(from) } },
    select: {
      askId: true, castingId: true, kilnId: true, wishedFrom: true, wishedTo: true, memberId: true,
      member: { select: { name: true } }, casting: { select: { title: true } },
    },
    orderBy: { wishedFrom: "asc" },
  });
  return rows.flatMap((row): WallFiring[] => {
    const { kilnId, wishedFrom, wishedTo } = row;
    if (kilnId === null || wishedFrom === null || wishedTo === null) return [];
    const mine = row.memberId === who.memberId;
    return [{
      id: row.askId,
      kilnId,
      startMs: wishedFrom.getTime(),
      endMs: wishedTo.getTime(),
      title: row.casting.title,
      who: row.member.name,
      mine,
      status: "planned",
      href: askHref(row, mine, can(who.roles, "settle-clashes")),
      segments: [],
      ...troubles.of(row.askId),
    }];
  });
}

/** One's own ask leads to where it can be changed, a manager to where it can be met; others only to its line in the list. */
function askHref({ askId, castingId }: { readonly askId: string; readonly castingId: string }, mine: boolean, settles: boolean): string {
  if (mine) return paths.findTime(castingId);
  return settles ? paths.clashes : `#ask-${askId}`;
}

type Troubles = { readonly of: (id: string) => { readonly trouble?: string } };

async function troublesOf({ tx, who, now }: Reading): Promise<Troubles> {
  const clashes = findClashes(await loadClashState(tx, who, now));
  return {
    of: (id) => {
      const words = clashes.flatMap((clash) => clashWords(clash, id) ?? []);
      return words.length === 0 ? {} : { trouble: [...new Set(words)].join("; ") };
    },
  };
}
