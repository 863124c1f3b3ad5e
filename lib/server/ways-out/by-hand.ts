import { Temporal } from "temporal-polyfill";
import type { ByHand } from "@/lib/contracts/by-hand";
import { seasonPlanSchema } from "@/lib/contracts/replan";
import type { AskedPlace } from "@/lib/contracts/ways-out";
import { planAsPut } from "@/lib/domain/settling/clash/put-by-hand";
import type { SeasonSpan } from "@/lib/domain/settling/clash/season";
import type { Place, Settlement } from "@/lib/domain/settling/clash/settlement";
import { DEFAULT_WEIGHTS, type Aim } from "@/lib/domain/settling/clash/weights";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { showDate } from "@/lib/domain/time/show-time";
import { toPlainDate } from "@/lib/server/clock";
import { query } from "@/lib/server/query";
import type { CarriedOut } from "@/lib/server/ways-out/write-moves";
import { tryOut } from "@/lib/server/ways-out/try-out";
import { inOrder } from "@/lib/server/ways-out/wanted-moves";
import { clashGround } from "@/lib/server/ways-out/ways-out";
import type { Who } from "@/lib/server/who";

/** A settlement before and after it was edited, and why it cannot stand as edited where it cannot. */
export type EditedWay = {
  readonly fingerprint: string;
  readonly today: string;
  readonly aim: Aim;
  readonly titles: ReadonlyMap<string, string>;
  readonly before: Settlement;
  readonly after: Outcome<{ readonly settlement: Settlement; readonly times: readonly CarriedOut[] }>;
};

type Base = { readonly aim: Aim; readonly span: SeasonSpan | undefined; readonly moves: readonly AskedPlace[] };

/** What an edit by hand makes of a settlement: nothing is searched for, and nothing moves. */
export async function byHand(who: Who, edited: ByHand): Promise<Outcome<EditedWay>> {
  const base = "way" in edited.base ? { aim: edited.base.way.aim, span: undefined, moves: edited.base.way.moves } : await seasonBase(who, edited.base.replanId);
  if (base === null) return refuse({ code: "not-found", message: "There is no such plan of a season any more, or it was accepted already." });
  const { ground, fingerprint, today } = await clashGround(who, base.span);
  const sayDay = (day: number): string => showDate(today.add({ days: day }));
  const places = (moves: readonly AskedPlace[]): [string, Place][] => moves.map(({ runId, kilnId, day }) => [runId, { kilnId, day: today.until(Temporal.PlainDate.from(day), { largestUnit: "days" }).days }]);
  const titles = new Map(ground.runs.map(({ runId, title }) => [runId, title]));
  const before = planAsPut(ground, { places: new Map(places(base.moves)), byHand: [] }, base.aim, DEFAULT_WEIGHTS, sayDay);
  if (!before.ok || base.moves.some(({ runId }) => !titles.has(runId))) return refuse(CHANGED);
  const stranger = edited.puts.find(({ runId }) => !titles.has(runId));
  if (stranger !== undefined) return refuse({ code: "not-found", message: "One of the runs that were put elsewhere may not be moved, or is not there any more." });
  const put = planAsPut(ground, { places: new Map([...places(base.moves), ...places(edited.puts)]), byHand: edited.puts.map(({ runId }) => runId) }, base.aim, DEFAULT_WEIGHTS, sayDay);
  const given = { fingerprint, today: today.toString(), aim: base.aim, titles, before: before.value };
  if (!put.ok) return ok({ ...given, after: put });
  const times = await tryOut(who, inOrder(put.value.moves, today, who.timeZone));
  return ok({ ...given, after: times.ok ? ok({ settlement: put.value, times: times.value }) : times });
}

const CHANGED = { code: "changed-meanwhile", message: "The calendar has changed since this settlement was worked out. Look at the new ones, and edit one of them." };

const seasonBase = query<string, Base | null>({
  name: "season-base",
  needs: "settle-clashes",
  run: async ({ tx }, replanId) => {
    const row = await tx.replan.findFirst({ where: { replanId, state: "ready", settlementId: null } });
    if (row === null) return null;
    const plan = seasonPlanSchema.parse(row.plan);
    const first = Temporal.PlainDate.from(plan.today);
    return { aim: "season", span: { from: toPlainDate(row.fromDay), to: toPlainDate(row.toDay) }, moves: plan.moves.map(({ runId, to }) => ({ runId, kilnId: to.kilnId, day: first.add({ days: to.day }).toString() })) };
  },
});
