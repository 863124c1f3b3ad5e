import { costNote, priceText } from "@/app/_components/cost-words";
import { DataTable, type Column } from "@/app/_components/data-table";
import { NoTariff } from "@/app/_components/no-tariff";
import { numberText } from "@/app/_components/number-text";
import { Stack } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import type { FiringCost } from "@/lib/domain/tariff/firing-cost";
import { moneyText } from "@/lib/domain/tariff/money";
import type { FiringScreen } from "@/lib/server/queries/firing";

type Line = { readonly name: string; readonly price: string; readonly hours: string; readonly kWh: string; readonly cost: string };

const COLUMNS: readonly Column<Line>[] = [
  { key: "band", title: "Band", cell: ({ name }) => name },
  { key: "price", title: "Price of a kWh", numeric: true, cell: ({ price }) => price },
  { key: "hours", title: "Hours", numeric: true, cell: ({ hours }) => hours },
  { key: "kwh", title: "kWh", numeric: true, cell: ({ kWh }) => kWh },
  { key: "cost", title: "Cost", numeric: true, cell: ({ cost }) => cost },
];

/** What a booked firing draws and costs, by the bands of its own hours. */
export function FiringCostPanel({ firing: { plan, cost, mayManagePower } }: { readonly firing: FiringScreen }) {
  const energy = `About ${numberText(plan.energy.kWh)} kWh from the meter`;
  return (
    <Panel title="Energy and cost" lead={cost === null ? `${energy}.` : `${energy}, ${moneyText(cost.cost, cost.currency)} by today’s tariff at the booked hours.`}>
      {cost === null ? (
        <NoTariff mayManage={mayManagePower} />
      ) : (
        <Stack>
          <DataTable caption="Cost by band" columns={COLUMNS} rows={linesOf(cost)} rowKey={({ name }) => name} />
          <p>{costNote(cost)}</p>
        </Stack>
      )}
    </Panel>
  );
}

function linesOf(cost: FiringCost): readonly Line[] {
  const lines = cost.bands.map(({ name, price, hours, kWh, cost: sum }): Line => ({
    name, price: `${cost.currency}\u00a0${priceText(price, cost)}`, hours: numberText(hours), kWh: numberText(kWh, 1), cost: moneyText(sum, cost.currency),
  }));
  return [...lines, { name: "In all", price: "", hours: numberText(cost.bands.reduce((sum, { hours }) => sum + hours, 0)), kWh: numberText(cost.kWh, 1), cost: moneyText(cost.cost, cost.currency) }];
}
