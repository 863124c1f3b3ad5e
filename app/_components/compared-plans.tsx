import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { kilnWeeksOfHours } from "@/lib/domain/time/kiln-weeks";
import { signedText } from "./level-words";
import { numberText } from "./number-text";
import styles from "./compared-plans.module.css";

export type PlanFigure = { readonly name: string; readonly unit: string; readonly decimals: number; readonly of: (plan: CastingPlan) => number };

const stageOf = ({ firing }: CastingPlan, name: string) => firing.stages.find(({ stage }) => stage === name);

/** What decides how long a kiln is held. */
export const TIME_FIGURES: readonly PlanFigure[] = [
  { name: "Kiln time", unit: "kiln-weeks", decimals: 1, of: ({ reservation }) => kilnWeeksOfHours(reservation.hours) },
  { name: "Kiln held", unit: "h", decimals: 0, of: ({ reservation }) => reservation.hours },
  { name: "Soak to room", unit: "h", decimals: 0, of: ({ firing }) => firing.annealingHours },
  { name: "Slow cool", unit: "K/h", decimals: 1, of: (plan) => Math.abs(stageOf(plan, "Slow cool")?.rateKPerH ?? 0) },
  { name: "Stays in the core", unit: "MPa", decimals: 2, of: ({ stress }) => stress.permanentCentreMPa },
];

/** What else of a run follows from its plan. */
export const RUN_FIGURES: readonly PlanFigure[] = [
  ...TIME_FIGURES,
  { name: "Passes on the way down", unit: "MPa", decimals: 2, of: ({ stress }) => stress.passingMPa },
  { name: "Hottest", unit: "°C", decimals: 0, of: ({ firing }) => firing.peakC },
  { name: "Soaks at", unit: "°C", decimals: 0, of: (plan) => stageOf(plan, "Soak")?.toC ?? 0 },
  { name: "Glass to put in", unit: "kg", decimals: 2, of: ({ glass }) => glass.chargeKg },
  { name: "Heaviest lift", unit: "kg", decimals: 1, of: ({ lifts }) => Math.max(0, ...lifts.map(({ kg }) => kg)) },
  { name: "Energy, about", unit: "kWh", decimals: 0, of: ({ energy }) => energy.kWh },
];

type ComparedPlansProps = {
  readonly caption: string;
  readonly figures: readonly PlanFigure[];
  readonly before: { readonly name: string; readonly plan: CastingPlan };
  readonly after: { readonly name: string; readonly plan: CastingPlan };
};

/** Two plans of one casting, figure by figure. */
export function ComparedPlans({ caption, figures, before, after }: ComparedPlansProps) {
  return (
    <table className={styles["compare"]}>
      <caption className="sr-only">{caption}</caption>
      <thead>
        <tr>
          <td />
          <th scope="col">{before.name}</th>
          <th scope="col">{after.name}</th>
          <th scope="col">Change</th>
        </tr>
      </thead>
      <tbody>
        {figures.map(({ name, unit, decimals, of }) => (
          <tr key={name}>
            <th scope="row">
              {name} <span className={styles["unit"]}>{unit}</span>
            </th>
            <td>{numberText(of(before.plan), decimals)}</td>
            <td>{numberText(of(after.plan), decimals)}</td>
            <td>{signedText(of(after.plan) - of(before.plan), decimals)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
