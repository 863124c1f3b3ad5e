import { useMemo, useState } from "react";
import { useWork } from "@/app/_work/use-work";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { thicknessReach, whatIfOf, withWhatIf } from "@/lib/domain/firing/what-if";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";

export type SweepPoint = { readonly thickestMm: number; readonly hours: number };
export type Sweep = { readonly reach: readonly [number, number]; readonly points: readonly SweepPoint[]; readonly busy: boolean };

const BETWEEN = 8;

/** How long the casting would hold its kiln at other thicknesses; one after another, when nothing else is asked. Null where its thickness is not given but worked out. */
export function useThicknessSweep(input: CastingInput, mesh: MeshBody | undefined): Sweep | null {
  const present = whatIfOf(input).thickestMm;
  const thicknesses = useMemo(() => (present === undefined ? [] : thicknessesAround(input, present)), [input, present]);
  const [found, setFound] = useState<readonly (SweepPoint | null)[]>([]);
  const next = thicknesses[found.length];
  const question = useMemo(() => (next === undefined ? null : { input: withWhatIf(input, { ...whatIfOf(input), thickestMm: next }), mesh }), [input, mesh, next]);
  const { last, failed } = useWork("plan", question, 2);
  if (next !== undefined && question !== null && (failed || last?.question === question)) {
    const plan = failed || last === null || !last.answer.ok ? null : last.answer.value;
    setFound([...found, plan === null ? null : { thickestMm: next, hours: plan.reservation.hours }]);
  }
  if (present === undefined) return null;
  return { reach: thicknessReach(input, present), points: found.filter((point) => point !== null), busy: next !== undefined };
}

/** Evenly over what is worth asking about, with the present one among them. */
function thicknessesAround(input: CastingInput, present: number): readonly number[] {
  const [least, most] = thicknessReach(input, present);
  const even = Array.from({ length: BETWEEN + 1 }, (_, i) => Math.round(least + ((most - least) * i) / BETWEEN));
  return [...new Set([...even, present])].toSorted((a, b) => a - b);
}
