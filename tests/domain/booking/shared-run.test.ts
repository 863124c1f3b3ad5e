import { describe, expect, it } from "vitest";
import { firstSharedRun, sharedRunAt, type SteamKept } from "@/lib/domain/booking/shared-run";
import type { CastingPlan, SharedCasting } from "@/lib/domain/firing/casting-plan";
import type { RunProposal } from "@/lib/domain/booking/run-plan";
import type { Outcome } from "@/lib/domain/refusal";
import { aPlan, aQuestion, at } from "./sample-question";

const casting = (castingId: string, change: Partial<SharedCasting> = {}): SharedCasting => ({
  castingId, title: castingId === "a" ? "Gull" : "Tern", glassName: "soda-lime", driedBeforeLoading: false, waxKg: 3, chargeKg: 8, potL: 6, shelfKg: 25,
  mould: { wetKg: 15, dryKg: 10, outsideMm: [280, 230, 180] }, steamOut: { hours: 3, condensateKg: 1.4 }, drying: { airDaysFrom: 4, airDaysTo: 7 },
  alone: { firingHours: 147, reservationHours: 160, kWh: 300 }, stress: { permanentMPa: 0.4, permanentLimitMPa: 0.4, passingMPa: 1.4, passingLimitMPa: 1.4 },
  place: { xMm: 0, yMm: 0, widthMm: 280, depthMm: 230, heightMm: 320, round: false }, ...change,
});

/** Two moulds, each loaded by two people in 45 minutes. */
function plan(change: Partial<SharedCasting> = {}): CastingPlan {
  const alone = aPlan();
  const castings = [casting("a", change), casting("b", change)];
  return aPlan({ castings, loadMm: { width: 500, depth: 230, height: 320 }, lifts: castings.flatMap(({ castingId }) => alone.lifts.map((lift) => ({ ...lift, castingId }))) });
}

const NONE: SteamKept = new Map();
const value = (outcome: Outcome<RunProposal>): RunProposal => {
  if (!outcome.ok) throw new Error(outcome.problems[0].message);
  return outcome.value;
};
const code = (outcome: Outcome<RunProposal>): string => (outcome.ok ? "ok" : outcome.problems[0].code);
const liftOf = (run: RunProposal, what: string, castingId: string) => run.lifts.find((lift) => lift.what === what && lift.castingId === castingId);

describe("a run of two moulds", () => {
  it("loads them one after another until the door closes, and unloads them so too", () => {
    const run = value(sharedRunAt(aQuestion(), plan(), "A", at("2026-12-09T12:00"), NONE));
    const loads = run.lifts.filter(({ what }) => what === "load").toSorted((x, y) => x.start.epochMilliseconds - y.start.epochMilliseconds);
    expect(loads.map(({ start }) => start.toString())).toEqual([at("2026-12-09T10:30").toString(), at("2026-12-09T11:15").toString()]);
    expect(loads.at(-1)?.end).toEqual(run.kilnFrom);
    const [first, second] = run.lifts.filter(({ what }) => what === "unload");
    expect(first?.end).toEqual(second?.start);
    expect(run.bookings.map(({ purpose }) => purpose).sort()).toEqual(["kiln", "load", "steam-out", "steam-out", "unload"]);
  });

  it("steams each out on its own, one steamer for one mould at a time, and lets each drain two hours", () => {
    const run = value(sharedRunAt(aQuestion(), plan(), "A", at("2026-12-09T12:00"), NONE));
    const [one, two] = run.bookings.filter(({ purpose }) => purpose === "steam-out");
    if (one === undefined || two === undefined) throw new Error("two steam-outs");
    expect(one.castingId).not.toBe(two.castingId);
    expect(one.start.epochMilliseconds >= two.end.epochMilliseconds || two.start.epochMilliseconds >= one.end.epochMilliseconds).toBe(true);
    for (const { castingId = "", end } of [one, two]) {
      expect((liftOf(run, "load", castingId)?.start.epochMilliseconds ?? 0) - end.epochMilliseconds).toBeGreaterThanOrEqual(2 * 3_600_000);
      expect(liftOf(run, "from-steamer", castingId)?.end).toEqual(end);
    }
  });

  it("leaves a steam-out where it is, and loads that mould last: drained by its own turn is enough, a quarter hour later is not", () => {
    const kept = (time: string): SteamKept => new Map([["a", at(time)]]);
    const run = value(sharedRunAt(aQuestion(), plan(), "A", at("2026-12-09T12:00"), kept("2026-12-09T09:15")));
    expect(run.bookings.filter(({ purpose }) => purpose === "steam-out").map(({ castingId }) => castingId)).toEqual(["b"]);
    expect(liftOf(run, "load", "a")?.start).toEqual(at("2026-12-09T11:15"));
    const late = sharedRunAt(aQuestion(), plan(), "A", at("2026-12-09T12:00"), kept("2026-12-09T09:30"));
    expect(code(late)).toBe("too-wet");
    if (!late.ok) expect(late.problems[0].message).toContain("Gull is steamed out until Wed 9 Dec, 09:30");
  });

  it("says which mould cannot be steamed out in time", () => {
    const outcome = sharedRunAt(aQuestion({ notBefore: at("2026-12-09T09:00") }), plan(), "A", at("2026-12-09T12:00"), new Map([["a", at("2026-12-08T12:00")]]));
    expect(code(outcome)).toBe("no-steam-out");
    if (!outcome.ok) expect(outcome.problems[0].message).toContain("Tern");
  });

  it("needs no steam-out for what has no wax to lose", () => {
    const run = value(sharedRunAt(aQuestion(), plan({ steamOut: { hours: 0, condensateKg: 0 } }), "A", at("2026-12-09T12:00"), NONE));
    expect(run.bookings.map(({ purpose }) => purpose)).toEqual(["load", "kiln", "unload"]);
  });
});

describe("the first shared run from a start on", () => {
  it("is that start where it does, and else the first that gives time to load all", () => {
    expect(value(firstSharedRun(aQuestion(), plan(), "A", at("2026-12-09T12:00"), NONE)).kilnFrom).toEqual(at("2026-12-09T12:00"));
    expect(value(firstSharedRun(aQuestion(), plan(), "A", at("2026-12-09T09:45"), NONE)).kilnFrom).toEqual(at("2026-12-09T10:30"));
  });

  it("is refused with the reason at the start itself when a day later none would do", () => {
    const busy = [{ equipmentId: "A", start: at("2026-12-10T09:00"), end: at("2026-12-20T09:00"), holder: "Ida's Seal" }];
    const refused = firstSharedRun(aQuestion({ busy }), plan(), "A", at("2026-12-09T12:00"), NONE);
    expect(refused.ok).toBe(false);
    if (!refused.ok) expect(refused.problems[0].message).toContain("Ida's Seal");
  });
});
