import { MouldDrawing } from "@/app/_components/mould-drawing";
import { numberText } from "@/app/_components/number-text";
import { Panel } from "@/app/_components/panel";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { Sums } from "./sums";
import styles from "./answer.module.css";

type AnswerMouldProps = { readonly plan: CastingPlan; readonly input: CastingInput };

/** What to mix for the mould, what it weighs at each stage, and how long wax and water take to leave. */
export function AnswerMould({ plan, input }: AnswerMouldProps) {
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
        {input.mould !== undefined && <MouldDrawing plan={plan} shape={input.piece.shape} wallMm={input.mould.wallMm} feeder={input.feeder} />}
      </div>
    </Panel>
  );
}

function kg(value: number): string {
  return `${numberText(value, 1)} kg`;
}
