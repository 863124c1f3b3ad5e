import fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { describe, expect, it } from "vitest";
import { barSegments } from "@/lib/domain/booking/bar-segments";
import { stageTimes } from "@/lib/domain/booking/stage-times";
import type { Stage, StageName } from "@/lib/domain/firing/casting-plan";

const start = Temporal.Instant.from("2027-01-04T08:00:00Z");
const after = (hours: number) => start.add({ milliseconds: Math.round(hours * 3_600_000) });
const stage = (name: StageName, hours: number, toC: number): Stage => ({ stage: name, hours, toC, rateKPerH: 0, why: "" });

const PROGRAM = [stage("Climb", 10, 620), stage("Climb", 10, 820), stage("Flow", 4, 820), stage("Slow cool", 100, 300), stage("Open", 1, 20)];

describe("the pieces of a kiln bar", () => {
  it("follow the program, each starting at the temperature the last one reached", () => {
    expect(barSegments(PROGRAM, start, after(125)).map((s) => [s.stage, s.fromC, s.toC, (s.endMs - s.startMs) / 3_600_000])).toEqual([
      ["Climb", 20, 620, 10], ["Climb", 620, 820, 10], ["Flow", 820, 820, 4], ["Slow cool", 820, 300, 100], ["Open", 300, 20, 1],
    ]);
  });

  it("wait in the last stage until the booking ends", () => {
    const last = barSegments(PROGRAM, start, after(150)).at(-1);
    expect(last).toMatchObject({ stage: "Open", fromC: 20, toC: 20, endMs: after(150).epochMilliseconds });
  });

  it("are cut where the booking ends, at the temperature reached by then", () => {
    expect(barSegments(PROGRAM, start, after(74)).at(-1)).toMatchObject({ stage: "Slow cool", toC: 560, endMs: after(74).epochMilliseconds });
  });

  it("leave out a stage that would start at the very end, and one that takes no time", () => {
    expect(barSegments(PROGRAM, start, after(20)).map((s) => s.stage)).toEqual(["Climb", "Climb"]);
    expect(barSegments([stage("Dry", 0, 20), stage("Climb", 2, 100)], start, after(2)).map((s) => s.stage)).toEqual(["Climb"]);
  });

  it("cover the booking without gaps or overlaps and agree with the stage times, whatever the program", () => {
    const names: StageName[] = ["Dry", "Climb", "Flow", "Drop", "Soak", "Slow cool", "Run-down", "Open"];
    const program = fc.array(fc.record({ at: fc.nat(7), hours: fc.double({ min: 0, max: 200, noNaN: true }), toC: fc.integer({ min: 20, max: 900 }) }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(program, fc.integer({ min: 1, max: 1500 }), (parts, booked) => {
        const stages = parts.map((p) => stage(names[p.at] ?? "Dry", p.hours, p.toC));
        const segments = barSegments(stages, start, after(booked));
        const times = stageTimes(stages, start, after(booked));
        if (segments.length === 0) return;
        expect(segments[0]?.startMs).toBe(start.epochMilliseconds);
        expect(segments.at(-1)?.endMs).toBe(after(booked).epochMilliseconds);
        segments.slice(1).forEach((one, i) => expect(one.startMs).toBe(segments[i]?.endMs));
        const starts = segments.filter((one, i) => one.stage !== segments[i - 1]?.stage).map((one) => one.startMs);
        expect(starts.every((ms) => times.some((time) => time.start.epochMilliseconds === ms))).toBe(true);
      }),
    );
  });
});
