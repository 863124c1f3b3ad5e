import type { ReactNode } from "react";
import { signedText } from "@/app/_components/level-words";
import { numberText } from "@/app/_components/number-text";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { kilnWeeksOfHours } from "@/lib/domain/time/kiln-weeks";
import type { PlanAnswer } from "./use-what-if";
import styles from "./why-page.module.css";

type WhatIfEffectProps = { readonly base: CastingPlan | null; readonly answer: PlanAnswer };

const FIGURES: readonly { readonly name: string; readonly unit: string; readonly decimals: number; readonly of: (plan: CastingPlan) => number }[] = [
  { name: "Kiln time", unit: "kiln-weeks", decimals: 1, of: ({ reservation }) => kilnWeeksOfHours(reservation.hours) },
  { name: "Kiln held", unit: "h", decimals: 0, of: ({ reservation }) => reservation.hours },
  { name: "Soak to room", unit: "h", decimals: 0, of: ({ firing }) => firing.annealingHours },
  { name: "Slow cool", unit: "K/h", decimals: 1, of: ({ firing }) => Math.abs(firing.stages.find(({ stage }) => stage === "Slow cool")?.rateKPerH ?? 0) },
  { name: "Stays in the core", unit: "MPa", decimals: 2, of: ({ stress }) => stress.permanentCentreMPa },
];

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

/** The same and what stands behind it, beside what there is now. */
export function WhatIfTable({ base, asked }: { readonly base: CastingPlan; readonly asked: CastingPlan }) {
  return (
    <table className={styles["compare"]}>
      <caption className="sr-only">The present plan and the one asked about</caption>
      <thead>
        <tr>
          <td />
          <th scope="col">Now</th>
          <th scope="col">What if</th>
          <th scope="col">Change</th>
        </tr>
      </thead>
      <tbody>
        {FIGURES.map(({ name, unit, decimals, of }) => (
          <tr key={name}>
            <th scope="row">
              {name} <span className={styles["unit"]}>{unit}</span>
            </th>
            <td>{numberText(of(base), decimals)}</td>
            <td>{numberText(of(asked), decimals)}</td>
            <td>{signedText(of(asked) - of(base), decimals)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
