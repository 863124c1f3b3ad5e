import { Temporal } from "temporal-polyfill";
import { benchDatabase } from "../world/bench-database";
import { askedSeason } from "../world/asked-season";
import { say, timed } from "./say";

const MONTHS = 6;

/** A whole season of a workshop planned anew as the jobs' process does it, to the quarter hour: what it costs, and how far from the best that can be. */
export async function benchWholeSeason(seconds: number, seeds: readonly number[], castings = 66): Promise<void> {
  const database = await benchDatabase();
  try {
    const { planSeason } = await import("@/lib/server/replan/plan-season");
    const { SeasonWatch } = await import("@/lib/server/replan/season-watch");
    for (const isLimited of [false, true]) for (const seed of seeds) {
      const { manager, runs } = await askedSeason(database.owner, castings, seed, isLimited);
      const from = Temporal.Now.zonedDateTimeISO(manager.timeZone).toPlainDate();
      const span = { from, to: from.add({ months: MONTHS }) };
      const { value: plan, seconds: took, cpu } = await timed(() => planSeason({ who: manager, span, seconds, watch: new SeasonWatch(async () => "go on") }));
      const name = `a season of ${runs} runs and asks on 6 kilns, power ${isLimited ? "for half of them" : "for all"}, seed ${seed}`;
      if (!plan.ok) say(name, plan.problems.map(({ message }) => message).join(" "));
      else say(name, `costs ${plan.value.cost.toFixed(1)}, bound ${plan.value.bound.toFixed(1)}, at most ${plan.value.atMostPercent ?? "?"} % from the best, ${plan.value.aside.length} left waiting, ${took.toFixed(1)} s of ${seconds}, ${cpu.toFixed(1)} s computing`);
    }
  } finally {
    const { closeDatabase } = await import("@/lib/server/db");
    await closeDatabase();
    await database.stop();
  }
}
