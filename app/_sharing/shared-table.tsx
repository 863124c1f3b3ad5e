import { DataTable, type Column } from "@/app/_components/data-table";
import { Badge } from "@/app/_components/badge";
import { showHours } from "@/lib/domain/time/show-time";
import type { SharedRow, SharedView } from "@/lib/server/joining/shared-view";
import { amountText } from "./amount-text";

/** What sharing means for each casting: hours, stress, and who pays what. */
export function SharedTable({ view, joining }: { readonly view: SharedView; readonly joining?: string | undefined }) {
  const { currency } = view.after.cost;
  const columns: readonly Column<SharedRow>[] = [
    { key: "casting", title: "Casting", cell: ({ castingId, title, owner, mine }) => <>{title}, {owner}{mine ? " (you)" : ""} {castingId === joining && <Badge tone="needsYou">new</Badge>}</> },
    { key: "glass", title: "Glass", cell: ({ glassName }) => glassName },
    { key: "alone", title: "Kiln time alone", numeric: true, cell: ({ aloneHours }) => showHours(aloneHours) },
    { key: "tension", title: "Tension here, MPa", cell: ({ stress }) => `permanent ${within(stress.permanentMPa, stress.permanentLimitMPa)}, passing ${within(stress.passingMPa, stress.passingLimitMPa)}` },
    { key: "costAlone", title: currency === null ? "Energy alone" : "Cost alone", numeric: true, cell: ({ alone }) => amountText(alone, currency) },
    { key: "pays", title: currency === null ? "Share of energy" : "Pays here", numeric: true, cell: ({ pays }) => (pays === null ? "" : amountText(pays, currency)) },
  ];
  return <DataTable caption="What sharing means for each casting" columns={columns} rows={view.rows} rowKey={({ castingId }) => castingId} />;
}

function within(reached: number, limit: number): string {
  return `${reached.toFixed(2)} of ${limit.toFixed(2)}`;
}
