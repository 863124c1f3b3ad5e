import { describe, expect, it } from "vitest";
import { brokenKiln, fewMayMove } from "@/lib/cli/bench/world/broken-kiln";
import { crowdedSeason } from "@/lib/cli/bench/world/crowded-season";
import { dayFields, dayProblem } from "@/lib/contracts/settle-days";
import { NO_WISHES } from "@/lib/domain/settling/clash/clash-ground";
import { clashProblem } from "@/lib/domain/settling/clash/clash-problem";
import { DEFAULT_WEIGHTS } from "@/lib/domain/settling/clash/weights";
import { unloadDay } from "@/lib/domain/settling/clash/standing-room";
import { verifyDays } from "@/lib/domain/settling/verify";

describe("a season made for the bench", () => {
  it.each([[3, 20, false, 1], [6, 40, true, 1], [20, 100, true, 10]])("of %d kilns and %d asks is the same for its seed and has no fault", (kilns, asks, replan, alike) => {
    const season = crowdedSeason({ kilns, asks, seed: 5, replan, alike });
    expect(crowdedSeason({ kilns, asks, seed: 5, replan, alike })).toEqual(season);
    expect(crowdedSeason({ kilns, asks, seed: 6, replan, alike })).not.toEqual(season);
    expect(dayProblem(dayFields.parse(season)).faults).toEqual([]);
    const booked = season.jobs.filter(({ bk }) => bk !== undefined).length;
    if (replan) expect(booked).toBeGreaterThan(asks / 2);
    else expect(booked).toBe(0);
  });
});

describe("a clash made for the bench", () => {
  it("is a calendar that stands but for the broken kiln", () => {
    const ground = brokenKiln(40, 3);
    const problem = clashProblem({ ...ground, taken: [] }, NO_WISHES, DEFAULT_WEIGHTS);
    const placements = ground.runs.map((run, job) => {
      const { kilnId, day } = run.standing ?? { kilnId: "", day: -1 };
      let steam = day - 1;
      while (!((ground.handsOn[steam] ?? 1) > 0)) steam--;
      return { job, kiln: ground.kilns.findIndex((one) => one.kilnId === kilnId), start: day, end: unloadDay(ground, run, { kilnId, day }), steam };
    });
    expect(verifyDays(problem, placements, 0)).toEqual([]);
    expect(verifyDays(clashProblem(ground, NO_WISHES, DEFAULT_WEIGHTS), placements).join(" ")).toContain("Kiln 0 is held twice");
  });

  it("lets only so many of its bookings move, those in the broken kiln among them", () => {
    const ground = brokenKiln(40, 3);
    const few = fewMayMove(ground, 12);
    expect(few.runs).toHaveLength(12);
    expect(few.taken).toHaveLength(ground.taken.length + 28);
    const broken = ground.runs.filter(({ standing, daysByKiln }) => standing?.kilnId === "kiln 0" && standing.day < 31 && standing.day + (daysByKiln["kiln 0"] ?? 0) > 10);
    expect(broken.length).toBeGreaterThan(0);
    for (const one of broken) expect(few.runs).toContainEqual(one);
  });
});
