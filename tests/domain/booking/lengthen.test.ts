import { expect, test } from "vitest";
import { laterEnd, type LaterEndWish } from "@/lib/domain/booking/lengthen";
import type { RunQuestion } from "@/lib/domain/booking/run-question";
import { aKiln, aQuestion, at } from "./sample-question";

/** Turnaround 2 h, unloading 30 min, staffed 09:00 to 17:00 from Monday to Friday; 2026-12-14 is a Monday. */
const kiln = aKiln("A");
const wish = (change: Partial<LaterEndWish>): LaterEndWish => ({ kilnFrom: at("2026-12-07T10:00"), notFreeBefore: at("2026-12-14T12:30"), coolAt: null, ...change });

function end(change: Partial<LaterEndWish>, question: Partial<RunQuestion> = {}) {
  const found = laterEnd(aQuestion(question), kiln, wish(change));
  if (!found.ok) throw new Error(found.problems[0].message);
  return { unloadFrom: found.value.unloadFrom, kilnTo: found.value.kilnTo };
}

test("a kiln wished until 12:30 is unloaded at 10:00 and free after its turnaround", () => {
  expect(end({})).toEqual({ unloadFrom: at("2026-12-14T10:00"), kilnTo: at("2026-12-14T12:30") });
});

test("an end that would be unloaded at night waits for the next opening", () => {
  expect(end({ notFreeBefore: at("2026-12-14T22:00") })).toEqual({ unloadFrom: at("2026-12-15T09:00"), kilnTo: at("2026-12-15T11:30") });
});

test("nothing is unloaded before it is cool, however early the kiln is wished back", () => {
  expect(end({ coolAt: at("2026-12-14T10:00") }).unloadFrom).toEqual(at("2026-12-14T10:00"));
  expect(end({ coolAt: at("2026-12-14T10:01") }).unloadFrom).toEqual(at("2026-12-14T10:15"));
  expect(end({ coolAt: at("2026-12-14T16:45") })).toEqual({ unloadFrom: at("2026-12-15T09:00"), kilnTo: at("2026-12-15T11:30") });
});

test("the next firing's loading may begin as the kiln comes free, and not a minute before", () => {
  const next = (loadingFrom: string) => ({
    busy: [{ equipmentId: "A", start: at("2026-12-14T13:15"), end: at("2026-12-20T10:00"), loadingFrom: at(loadingFrom), holder: "Ida Holm for Seal" }],
  });
  expect(end({}, next("2026-12-14T12:30")).kilnTo).toEqual(at("2026-12-14T12:30"));
  const refused = laterEnd(aQuestion(next("2026-12-14T12:29")), kiln, wish({}));
  expect(refused.ok).toBe(false);
  expect(refused.ok ? "" : refused.problems[0].message).toContain("Ida Holm for Seal has it from Mon 14 Dec, 12:29");
});
