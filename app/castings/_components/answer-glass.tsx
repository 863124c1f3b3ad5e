import { numberText } from "@/app/_components/number-text";
import { Panel } from "@/app/_components/panel";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { Sums, type SumLine } from "./sums";

/** The glass to order, and the pot to melt it in. */
export function AnswerGlass({ plan }: { readonly plan: CastingPlan }) {
  const { glass, pot } = plan;
  const lines: readonly SumLine[] = [
    { what: "the piece", amount: kg(glass.pieceKg) },
    { what: "the feeder", amount: kg(glass.feederKg) },
    { what: "head above it, drawn in as it shrinks", amount: kg(glass.headKg) },
    { what: "film that stays in the pot", amount: kg(glass.residueKg) },
  ];
  return (
    <Panel title="Glass to order" lead={glass.name}>
      <Sums lines={lines} total={{ what: "all the glass put in", amount: kg(glass.chargeKg) }} />
      <p>
        Pot of {numberText(pot.litres, 1)} L, about {numberText(pot.diameterMm)} mm across and {numberText(pot.heightMm)} mm high: broken glass fills only part of the room it takes.
      </p>
    </Panel>
  );
}

function kg(value: number): string {
  return `${numberText(value, 2)} kg`;
}
