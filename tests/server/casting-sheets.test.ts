import { randomUUID } from "node:crypto";
import { afterAll, expect, it } from "vitest";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { createCasting } = await import("@/lib/server/commands/create-casting");
const { benchSheet } = await import("@/lib/server/queries/bench-sheet");
const { coldWorkSheet } = await import("@/lib/server/queries/cold-work-sheet");
const { closeDatabase } = await import("@/lib/server/db");
const shed = await makeWorkshop(database.ownerUrl);
const elsewhere = await makeWorkshop(database.ownerUrl);

afterAll(async () => {
  await closeDatabase();
  await database.drop();
});

const brick: CastingInput = {
  glass: "soda-lime-casting",
  piece: { shape: "brick", sizeMm: [200, 150, 100] },
  cooling: "all-round",
  mould: { wallMm: 40, plasterSilicaWater: [1, 1, 1] },
  stress: "careful",
};

async function described(input: CastingInput): Promise<string> {
  const outcome = await createCasting(shed.member, { title: "Tide bowl", input, neededBy: null, requestKey: randomUUID() });
  if (!outcome.ok) throw new Error(outcome.problems[0].message);
  return outcome.value.castingId;
}

it("gives the batches of a stored casting's mould, with the plan's own figures", async () => {
  const sheet = await benchSheet(shed.member, await described(brick));
  expect(sheet).toMatchObject({ title: "Tide bowl", owner: shed.member.name, mould: { ok: true, value: { wallMm: 40, parts: [1, 1, 1] } } });
  if (sheet?.mould.ok !== true) throw new Error("no sheet");
  const { batches, figures } = sheet.mould.value;
  expect(batches.layers.reduce((sum, layer) => sum + layer.amounts.wetKg, 0)).toBeCloseTo(figures.wetKg, 9);
});

it("says that bare glass has no mould", async () => {
  const { mould: _mould, ...bare } = brick;
  expect(await benchSheet(shed.member, await described(bare))).toMatchObject({ mould: { ok: false, problems: [{ code: "no-mould" }] } });
});

it("gives a stored casting to be ground and polished", async () => {
  expect(await coldWorkSheet(shed.member, await described(brick))).toMatchObject({ title: "Tide bowl", owner: shed.member.name, input: brick });
});

it.each([["the bench sheet", benchSheet], ["the cold-work sheet", coldWorkSheet]] as const)("%s is for its owner and the manager, and not for another workshop or a role without castings", async (_what, sheet) => {
  const castingId = await described(brick);
  expect(await sheet(shed.manager, castingId)).not.toBeNull();
  expect(await sheet({ ...shed.member, memberId: randomUUID() }, castingId)).toBeNull();
  expect(await sheet(elsewhere.manager, castingId)).toBeNull();
  await expect(sheet(shed.assistant, castingId)).rejects.toThrow("not allowed");
});
