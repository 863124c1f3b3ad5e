import { describe, expect, test } from "vitest";
import { readRunTime, runTimeText } from "@/lib/contracts/run-time";
import { moveRunSchema } from "@/lib/contracts/runs";

const KILN = "7f3c3c1e-52d8-4a53-9a36-0d9a6b6c1f10";
const FROM = "2027-03-29T08:00:00Z";
const move = (time: unknown) => moveRunSchema.safeParse({ ...readRunTime(time), firingId: KILN, version: 1, requestKey: "a-request-key" });

describe("the time chosen for a run", () => {
  test("comes back as it was offered, with and without a steam-out", () => {
    expect(readRunTime(runTimeText({ kilnId: KILN, kilnFrom: FROM, steamFrom: "2027-03-28T10:00:00Z" }))).toEqual({ kilnId: KILN, kilnFrom: FROM, steamFrom: "2027-03-28T10:00:00Z" });
    expect(readRunTime(runTimeText({ kilnId: KILN, kilnFrom: FROM, steamFrom: null }))).toEqual({ kilnId: KILN, kilnFrom: FROM });
  });

  test("passes the contract as offered, and no other way", () => {
    expect(move(`${KILN} ${FROM}`).success).toBe(true);
    for (const posted of [null, "", KILN, `${KILN} soon`, `${KILN} ${FROM} `, `${KILN} ${FROM} ${FROM} ${FROM}`, 7]) expect(move(posted).success).toBe(false);
  });
});
