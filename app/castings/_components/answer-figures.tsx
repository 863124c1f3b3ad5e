import { KeyFigure, KeyFigures } from "@/app/_components/key-figure";
import { numberText } from "@/app/_components/number-text";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { kilnWeeksOfHours } from "@/lib/domain/time/kiln-weeks";
import { showHours } from "@/lib/domain/time/show-time";
import { stageHours, whyThatLong } from "./why-that-long";
import styles from "./answer.module.css";

/** The four numbers a member came for. */
export function AnswerFigures({ plan, where }: { readonly plan: CastingPlan; readonly where: string }) {
  const { reservation, glass, firing } = plan;
  const heaviest = plan.lifts.reduce((most, lift) => (lift.kg > most.kg ? lift : most), plan.lifts[0] ?? NO_LIFT);
  return (
    <div className={styles["figures"]}>
      <KeyFigures>
        <KeyFigure label={`kiln-weeks, in ${where}`} value={numberText(kilnWeeksOfHours(reservation.hours), 1)} why={<WhyThatLong plan={plan} />} />
        <KeyFigure label="of glass to order" value={numberText(glass.chargeKg, 1)} unit="kg" why={`The piece takes ${numberText(glass.pieceKg, 2)} kg; the rest fills the feeder, stands above as it shrinks, and stays in the pot.`} />
        <KeyFigure label="hottest of the firing" value={numberText(firing.peakC)} unit="°C" why={`Cools as a slab ${numberText(plan.shape.slabEquivalentMm)} mm thick would. From the soak down to room temperature ${numberText(firing.annealingHours)} h.`} />
        <KeyFigure label={`heaviest lift, ${heaviest.hands} ${heaviest.hands === 1 ? "person" : "people"}`} value={numberText(heaviest.kg, 1)} unit="kg" why={heaviest.why} />
      </KeyFigures>
    </div>
  );
}

const NO_LIFT = { kg: 0, hands: 0, why: "Nothing has to be lifted." };

function WhyThatLong({ plan }: { readonly plan: CastingPlan }) {
  const { reservation, firing } = plan;
  return (
    <>
      <p>
        {numberText(firing.hours)} h of firing and {numberText(reservation.marginHours)} h of margin make {numberText(reservation.hours)} h: {showHours(reservation.hours)}.
      </p>
      <p>{whyThatLong(plan)}</p>
      <ul>
        {stageHours(plan).map(({ stage, hours }) => (
          <li key={stage}>
            {stage}: {numberText(hours, hours < 10 ? 1 : 0)} h
          </li>
        ))}
      </ul>
    </>
  );
}
