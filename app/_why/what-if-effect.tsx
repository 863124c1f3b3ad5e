import type { ReactNode } from "react";
import { signedText } from "@/app/_components/level-words";
import { numberText } from "@/app/_components/number-text";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { kilnWeeksOfHours } from "@/lib/domain/time/kiln-weeks";
import type { PlanAnswer } from "./use-what-if";
import styles from "./why-page.module.css";

type WhatIfEffectProps = { readonly base: CastingPlan | null; readonly answer: PlanAnswer };

/** What the change does, in one line that stays in sight while a slider is moved. */
export function WhatIfEffect({ base, answer }: WhatIfEffectProps) {
  return (
    <div className={styles["effect"]} role="status" aria-busy={answer.busy || undefined}>
      {effectOf(base, answer)}
    </div>
  );
}

function effectOf(base: CastingPlan | null, { outcome, busy, failed }: PlanAnswer): ReactNode {
  if (failed) return "This could not be worked out: a fault of this program, not of the casting.";
  if (outcome !== null && !outcome.ok) return <span className={styles["refused"]}>{outcome.problems.map(({ message }) => message).join(" ")}</span>;
  if (base === null || outcome === null) return busy || base === null ? "Working out the present plan…" : "No answer to this yet.";
  const { hours } = outcome.value.reservation;
  const now = base.reservation.hours;
  return (
    <>
      <strong>{numberText(kilnWeeksOfHours(hours), 1)} kiln-weeks</strong>{" "}
      {busy ? "working out the change…" : hours === now ? "as it is now" : `${signedText(kilnWeeksOfHours(hours) - kilnWeeksOfHours(now), 1)} kiln-weeks, ${signedText(hours - now)} h`}
    </>
  );
}
