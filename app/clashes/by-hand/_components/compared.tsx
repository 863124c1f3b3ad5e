import { DataTable } from "@/app/_components/data-table";
import type { Settlement } from "@/lib/domain/settling/clash/settlement";
import { points } from "../../ways-out/_components/way-words";

type Row = { readonly what: string; readonly before: string; readonly after: string };

/** A settlement's cost and totals before an edit and after it; a dash where it cannot stand. */
export function Compared({ before, after }: { readonly before: Settlement; readonly after: Settlement | undefined }) {
  const row = (what: string, of: (one: Settlement) => string): Row => ({ what, before: of(before), after: after === undefined ? "–" : of(after) });
  const rows = [
    row("Cost", ({ cost }) => points(cost)),
    row("Booked runs that move", ({ figures }) => String(figures.moved)),
    row("Days they move, in all", ({ figures }) => String(figures.daysMoved)),
    row("To another kiln", ({ figures }) => String(figures.otherKilns)),
    row("Asks booked", ({ figures }) => String(figures.asksPlaced)),
    row("Dates missed", ({ figures }) => String(figures.late)),
    row("Days late, in all", ({ figures }) => String(figures.daysLate)),
    row("Changes in the next two weeks", ({ figures }) => String(figures.nearChanges)),
  ];
  return (
    <DataTable
      caption="Before and after the edit"
      rows={rows}
      rowKey={({ what }) => what}
      columns={[
        { key: "what", title: "What", cell: ({ what }) => what },
        { key: "before", title: "Before", numeric: true, cell: (one) => one.before },
        { key: "after", title: "By hand", numeric: true, cell: (one) => one.after },
      ]}
    />
  );
}
