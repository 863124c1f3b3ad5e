import { useMemo, useState } from "react";
import { useWork } from "@/app/_work/use-work";
import { readNumber } from "@/lib/contracts/form-number";
import type { CastingInput, StressLevel } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { INPUT_RANGES } from "@/lib/domain/firing/input-ranges";
import { whatIfOf, withWhatIf, type WhatIf } from "@/lib/domain/firing/what-if";
import type { Outcome, Problem } from "@/lib/domain/refusal";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { CAREFUL } from "@/lib/domain/stress/stress-level";

export type AskedField = "piece.thickestMm" | "mould.wallMm" | "stress.permanentMPa" | "stress.passingMPa";
export type Asked = Readonly<Record<AskedField, string>> & { readonly level: "careful" | "own" };

const WORDS: Readonly<Record<AskedField, string>> = { "piece.thickestMm": "The thickest part", "mould.wallMm": "The mould wall", "stress.permanentMPa": "The permanent stress", "stress.passingMPa": "The passing stress" };

/** Looser than careful by so much is where own limits begin when none were set: a first thing to ask about. */
const FIRST_OWN = { permanentMPa: 2 * CAREFUL.permanentMPa, passingMPa: 2 * CAREFUL.passingMPa };

function askedOf({ thickestMm, wallMm, stress }: WhatIf): Asked {
  const own = stress === "careful" ? FIRST_OWN : stress;
  return {
    "piece.thickestMm": thickestMm?.toString() ?? "", "mould.wallMm": wallMm?.toString() ?? "",
    level: stress === "careful" ? "careful" : "own", "stress.permanentMPa": String(own.permanentMPa), "stress.passingMPa": String(own.passingMPa),
  };
}

export type PlanAnswer = { readonly outcome: Outcome<CastingPlan> | null; readonly busy: boolean; readonly failed: boolean };

export type WhatIfState = {
  readonly asked: Asked;
  readonly set: (change: Partial<Asked>) => void;
  readonly reset: () => void;
  readonly problems: readonly Problem[];
  /** What is asked, once it can be read; the casting itself until then. */
  readonly whatIf: WhatIf;
  readonly input: CastingInput;
  readonly base: PlanAnswer;
  readonly answer: PlanAnswer;
  /** The same with the careful level and with the own limits. */
  readonly byLevel: { readonly careful: PlanAnswer; readonly own: PlanAnswer };
};

/** Three figures of a casting that may be tried out; nothing of it is saved. */
export function useWhatIf(input: CastingInput, mesh: MeshBody | undefined): WhatIfState {
  const present = useMemo(() => whatIfOf(input), [input]);
  const [asked, setAsked] = useState<Asked>(() => askedOf(present));
  const { read, problems } = useMemo(() => readAsked(asked, present), [asked, present]);
  const whatIf = read ?? present;
  const careful = useMemo(() => withWhatIf(input, { ...whatIf, stress: "careful" }), [input, whatIf]);
  const own = useMemo(() => (ownLevel(asked) === null ? null : withWhatIf(input, { ...whatIf, stress: ownLevel(asked) ?? "careful" })), [input, whatIf, asked]);
  const chosen = asked.level === "careful" ? careful : (own ?? careful);
  const base = usePlan(input, mesh, 0);
  const byLevel = { careful: usePlan(careful, mesh, asked.level === "careful" ? 0 : 1), own: usePlan(own, mesh, asked.level === "careful" ? 1 : 0) };
  return {
    asked, problems, whatIf, input: chosen, base, byLevel,
    answer: read === null ? { outcome: null, busy: false, failed: false } : asked.level === "careful" ? byLevel.careful : byLevel.own,
    set: (change) => setAsked((now) => ({ ...now, ...change })),
    reset: () => setAsked(askedOf(present)),
  };
}

function usePlan(input: CastingInput | null, mesh: MeshBody | undefined, urgency: 0 | 1): PlanAnswer {
  const question = useMemo(() => (input === null ? null : { input, mesh }), [input, mesh]);
  const { last, busy, failed } = useWork("plan", question, urgency);
  return { outcome: question === null ? null : (last?.answer ?? null), busy, failed };
}

function ownLevel(asked: Asked): Exclude<StressLevel, "careful"> | null {
  const [permanent, passing] = [numberOf("stress.permanentMPa", asked), numberOf("stress.passingMPa", asked)];
  return permanent.value === undefined || passing.value === undefined ? null : { permanentMPa: permanent.value, passingMPa: passing.value };
}

function numberOf(field: AskedField, asked: Asked): { readonly value?: number; readonly problem?: Problem } {
  const [least, most, unit] = INPUT_RANGES[field];
  const words = { label: WORDS[field], allowed: `${least} to ${most} ${unit}` };
  const read = readNumber(field, asked[field], words);
  if (!read.ok) return { problem: read.problems[0] };
  if (read.value === undefined) return { problem: { code: "missing", field, message: `${words.label} is missing; it takes ${words.allowed}.` } };
  if (!(read.value >= least && read.value <= most)) return { problem: { code: "out-of-range", field, value: read.value, allowed: words.allowed, message: `${words.label} is ${read.value} ${unit}; it takes ${words.allowed}.` } };
  return { value: read.value };
}

function readAsked(asked: Asked, present: WhatIf): { readonly read: WhatIf | null; readonly problems: readonly Problem[] } {
  const thick = present.thickestMm === undefined ? {} : numberOf("piece.thickestMm", asked);
  const wall = present.wallMm === undefined ? {} : numberOf("mould.wallMm", asked);
  const limits = asked.level === "careful" ? [] : [numberOf("stress.permanentMPa", asked), numberOf("stress.passingMPa", asked)];
  const problems = [thick, wall, ...limits].flatMap(({ problem }) => (problem === undefined ? [] : [problem]));
  const stress = asked.level === "careful" ? asked.level : ownLevel(asked);
  return { problems, read: problems.length > 0 || stress === null ? null : { thickestMm: thick.value, wallMm: wall.value, stress } };
}
