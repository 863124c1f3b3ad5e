import { expect, it } from "vitest";
import { readCastingForm } from "@/lib/contracts/casting-form";
import { formOf } from "@/lib/contracts/casting-form-of";
import { changesOf, withTaken } from "@/lib/contracts/taken-fields";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { whatIfOf, withWhatIf, type WhatIf } from "@/lib/domain/firing/what-if";

const INPUT: CastingInput = {
  glass: "soda-lime-casting", piece: { shape: "brick", sizeMm: [200, 150, 100] }, cooling: "all-round",
  mould: { wallMm: 40, plasterSilicaWater: [1, 1, 1] }, feeder: { diameterMm: 30, lengthMm: 60 }, stress: "careful",
};
const form = formOf({ title: "Reed", input: INPUT, neededBy: null });
const whatIfs: readonly Partial<WhatIf>[] = [{ thickestMm: 80 }, { wallMm: 30 }, { stress: { permanentMPa: 0.8, passingMPa: 3 } }, { thickestMm: 120, wallMm: 55, stress: { permanentMPa: 0.2, passingMPa: 1 } }];

it.each(whatIfs)("carries %j into the form, and nothing else", (over) => {
  const whatIf = { ...whatIfOf(INPUT), ...over };
  const taken = withTaken(form, changesOf(INPUT, whatIf));
  const read = taken === null ? null : readCastingForm(taken);
  expect(read?.ok === true && read.value).toEqual(withWhatIf(INPUT, whatIf));
});
it("takes a casting back from its own limits to careful", () => {
  const own: CastingInput = { ...INPUT, stress: { permanentMPa: 0.8, passingMPa: 3 } };
  const taken = withTaken(formOf({ title: "Reed", input: own, neededBy: null }), changesOf(own, { ...whatIfOf(own), stress: "careful" }));
  const read = taken === null ? null : readCastingForm(taken);
  expect(read?.ok === true && read.value.stress).toBe("careful");
});
it("changes nothing where nothing was asked", () => {
  expect(changesOf(INPUT, whatIfOf(INPUT))).toEqual({});
  expect(withTaken(form, {})).toBeNull();
});
it("leaves aside fields that are none of a what-if, doubled ones and long ones", () => {
  expect(withTaken(form, { title: "Mine now", "mould.wallMm": ["30", "40"], "piece.thickestMm": "1".repeat(25) })).toBeNull();
});
