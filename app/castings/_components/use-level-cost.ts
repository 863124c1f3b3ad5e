import { useMemo } from "react";
import { levelCostWords } from "@/app/_components/level-words";
import { useWork } from "@/app/_work/use-work";
import type { CastingForm } from "@/lib/contracts/casting-fields";
import type { StressLevel } from "@/lib/domain/firing/casting-input";
import { inputForKiln } from "@/lib/domain/firing/for-kiln";
import { type Answer, shownKiln } from "./live-answer";
import { typedLimits } from "./typed-limits";

/** What the own limits save or cost against the careful level in the kiln that is shown, in words; undefined until that is known. */
export function useLevelCost(form: CastingForm, answer: Answer | null, chosenKiln: string | null): string | undefined {
  const shown = answer === null ? undefined : shownKiln(answer, chosenKiln);
  const permanent = form["stress.permanentMPa"];
  const passing = form["stress.passingMPa"];
  const question = useMemo(() => {
    if (answer === null) return null;
    const other: StressLevel | null = answer.input.stress === "careful" ? typedLimits(permanent, passing) : "careful";
    const input = shown === undefined ? answer.input : inputForKiln(answer.input, shown.kiln);
    return other === null ? null : { input: { ...input, stress: other }, mesh: answer.mesh };
  }, [answer, shown, permanent, passing]);
  const { last, busy } = useWork("plan", question, 1);
  const plan = shown?.plan ?? answer?.general;
  if (answer === null || plan === undefined || question === null || busy || last === null || !last.answer.ok) return undefined;
  const [here, there] = [plan.reservation.hours, last.answer.value.reservation.hours];
  return answer.input.stress === "careful" ? levelCostWords(there, here) : levelCostWords(here, there);
}
