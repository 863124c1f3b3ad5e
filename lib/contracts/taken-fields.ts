import type { CastingInput, StressLevel } from "@/lib/domain/firing/casting-input";
import { whatIfOf, type WhatIf } from "@/lib/domain/firing/what-if";
import { CASTING_FIELDS, type CastingField, type CastingForm } from "./casting-fields";

/** The fields of a casting that may come with its address, from a what-if. */
const TAKEN = ["piece.thickestMm", "mould.wallMm", "stress", "stress.permanentMPa", "stress.passingMPa"] as const satisfies readonly CastingField[];

/** What a what-if changes in a casting's form; empty when it changes nothing. */
export function changesOf(input: CastingInput, whatIf: WhatIf): Readonly<Record<string, string>> {
  const now = whatIfOf(input);
  return {
    ...(whatIf.thickestMm === undefined || whatIf.thickestMm === now.thickestMm ? {} : { "piece.thickestMm": String(whatIf.thickestMm) }),
    ...(whatIf.wallMm === undefined || whatIf.wallMm === now.wallMm ? {} : { "mould.wallMm": String(whatIf.wallMm) }),
    ...(sameLevel(whatIf.stress, now.stress) ? {} : levelFields(whatIf.stress)),
  };
}

function sameLevel(one: StressLevel, other: StressLevel): boolean {
  if (one === "careful" || other === "careful") return one === other;
  return one.permanentMPa === other.permanentMPa && one.passingMPa === other.passingMPa;
}

function levelFields(level: StressLevel): Readonly<Record<string, string>> {
  if (level === "careful") return { stress: level };
  return { stress: "own", "stress.permanentMPa": String(level.permanentMPa), "stress.passingMPa": String(level.passingMPa) };
}

/** The form with what came in the address put over it; null when nothing did. Anything else in the address is left aside, and values are checked like typed ones. */
export function withTaken(form: CastingForm, address: Readonly<Record<string, string | string[] | undefined>>): CastingForm | null {
  const taken = TAKEN.flatMap((field) => {
    const value = address[field];
    return typeof value === "string" && value.length <= LONGEST ? [[field, value] as const] : [];
  });
  if (taken.length === 0) return null;
  const over = Object.fromEntries(taken);
  return Object.fromEntries(CASTING_FIELDS.map((field) => [field, over[field] ?? form[field]])) as Record<CastingField, string>;
}

const LONGEST = 24;
