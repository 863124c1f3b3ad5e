import { useMemo } from "react";
import { costNote, priceText } from "@/app/_components/cost-words";
import { DataTable, type Column } from "@/app/_components/data-table";
import { NoTariff } from "@/app/_components/no-tariff";
import { numberText } from "@/app/_components/number-text";
import { Panel } from "@/app/_components/panel";
import type { Kiln } from "@/lib/domain/booking/equipment";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { firingPower } from "@/lib/domain/firing/power";
import { costRange, type CostRange, type FiringCost } from "@/lib/domain/tariff/firing-cost";
import { moneyText } from "@/lib/domain/tariff/money";
import type { CostGround } from "@/lib/domain/tariff/starts";
import { weekTime } from "@/lib/domain/tariff/week-words";
import styles from "./answer.module.css";

type AnswerCostProps = { readonly plan: CastingPlan; readonly kiln: Kiln; readonly ground: CostGround };

/** What the firing draws, and what that costs at the cheapest and the dearest start. */
export function AnswerCost({ plan, kiln, ground: { tariff, startsMin, mayManagePower } }: AnswerCostProps) {
  const range = useMemo(() => (tariff === null ? null : costRange(firingPower(plan, kiln.limits), tariff, startsMin)), [plan, kiln, tariff, startsMin]);
  const energy = `In ${kiln.name} about ${numberText(plan.energy.kWh)} kWh from the meter`;
  return (
    <Panel title="Energy and cost" lead={range === null ? `${energy}.` : `${energy}, ${between(range)}.`}>
      {range === null ? (
        <NoTariff mayManage={mayManagePower} />
      ) : (
        <div className={styles["stack"]}>
          <DataTable caption="Cost by band, at the cheapest and the dearest start" columns={columnsOf(range)} rows={linesOf(range)} rowKey={({ name }) => name} />
          <p>
            Cheapest when the door is closed {weekTime(range.cheapest.startMin)}, dearest {weekTime(range.dearest.startMin)}, of the hours in which somebody is there. {costNote(range.cheapest.cost)}
          </p>
        </div>
      )}
    </Panel>
  );
}

type Line = { readonly name: string; readonly price: string; readonly cheapest: string; readonly dearest: string };

function columnsOf({ cheapest }: CostRange): readonly Column<Line>[] {
  return [
    { key: "band", title: "Band", cell: ({ name }) => name },
    { key: "price", title: `${cheapest.cost.currency} a kWh`, numeric: true, cell: ({ price }) => price },
    { key: "cheapest", title: "Cheapest start", cell: (line) => line.cheapest },
    { key: "dearest", title: "Dearest start", cell: (line) => line.dearest },
  ];
}

function linesOf({ cheapest, dearest }: CostRange): readonly Line[] {
  const both = [...cheapest.cost.bands, ...dearest.cost.bands];
  const names = [...new Set(both.map(({ name }) => name))];
  const lines = names.map((name): Line => ({
    name,
    price: priceText(both.find((band) => band.name === name)?.price ?? 0, cheapest.cost),
    cheapest: bandText(cheapest.cost, name),
    dearest: bandText(dearest.cost, name),
  }));
  return [...lines, { name: "In all", price: "", cheapest: moneyText(cheapest.cost.cost, cheapest.cost.currency), dearest: moneyText(dearest.cost.cost, dearest.cost.currency) }];
}

function bandText({ bands, currency }: FiringCost, name: string): string {
  const band = bands.find((one) => one.name === name);
  return band === undefined ? "none" : `${numberText(band.kWh)} kWh, ${moneyText(band.cost, currency)}`;
}

function between({ cheapest, dearest }: CostRange): string {
  const [low, high] = [cheapest.cost, dearest.cost].map(({ cost, currency }) => moneyText(cost, currency));
  return low === high ? `about ${low ?? ""}` : `about ${low ?? ""} to ${high ?? ""}, by when it starts`;
}
