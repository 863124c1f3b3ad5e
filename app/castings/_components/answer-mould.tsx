import { numberText } from "@/app/_components/number-text";
import { Panel } from "@/app/_components/panel";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { Sums } from "./sums";
import styles from "./answer.module.css";

/** What to mix for the mould, what it weighs at each stage, and how long wax and water take to leave. */
export function AnswerMould({ plan }: { readonly plan: CastingPlan }) {
  const { mould, steamOut, drying } = plan;
  if (mould.wetKg === 0) return null;
  const [width, depth, height] = mould.outsideMm;
  return (
    <Panel title="Mould to mix" lead={`Outside ${numberText(width)} × ${numberText(depth)} × ${numberText(height)} mm.`}>
      <div className={styles["mould"]}>
        <div>
          <Sums
            lines={[
              { what: "plaster", amount: kg(mould.plasterKg) },
              { what: "silica", amount: kg(mould.silicaKg) },
              { what: "water", amount: kg(mould.waterKg) },
            ]}
            total={{ what: "wet mould", amount: kg(mould.wetKg) }}
          />
          <Sums
            lines={[
              { what: "dry, when its free water has gone", amount: kg(mould.dryKg) },
              { what: "fired", amount: kg(mould.firedKg) },
              { what: "wax to melt out", amount: kg(plan.waxKg) },
            ]}
          />
          <p>
            Steam-out takes the steamer for {numberText(steamOut.hours, 1)} h. Drying in air: {numberText(drying.airDaysFrom)} to {numberText(drying.airDaysTo)} days; weigh it to know.
          </p>
        </div>
      </div>
    </Panel>
  );
}

function kg(value: number): string {
  return `${numberText(value, 1)} kg`;
}
