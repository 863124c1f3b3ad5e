import { Temporal } from "temporal-polyfill";
import type { Stage } from "@/lib/domain/firing/casting-plan";
import { showTime } from "@/lib/domain/time/show-time";
import { DataTable, type Column } from "./data-table";
import { numberText, rateText } from "./number-text";
import { programLine, type Segment } from "./program-line";
import { StageTag } from "./stage-tag";

/** The clock a firing starts by. */
export type StartClock = { readonly instantMs: number; readonly timeZone: string };

type StageTableProps = { readonly stages: readonly Stage[]; readonly startClock?: StartClock | undefined };

/** The firing plan in words and numbers, with the reason for every stage. */
export function StageTable({ stages, startClock }: StageTableProps) {
  const columns: readonly Column<Segment>[] = [
    { key: "stage", title: "Stage", cell: (row) => <StageTag stage={row.stage} atC={Math.max(row.fromC, row.toC)} /> },
    ...(startClock === undefined ? [] : [{ key: "begins", title: "Begins", cell: (row: Segment) => <time>{clockText(startClock, row.fromH)}</time> }]),
    { key: "to", title: "To", numeric: true, cell: (row) => `${numberText(row.toC)} °C` },
    { key: "rate", title: "Rate", numeric: true, cell: (row) => rateText(row.rateKPerH) },
    { key: "hours", title: "Takes", numeric: true, cell: (row) => `${numberText(row.toH - row.fromH, 1)} h` },
    { key: "why", title: "Why", cell: (row) => row.why },
  ];
  return (
    <DataTable caption="Stages of the firing plan" columns={columns} rows={programLine(stages)} rowKey={(row) => `${row.stage}-${row.fromH}-${row.toC}`} />
  );
}

/** "Mon 7 Dec, 09:30", that many hours after the start. */
export function clockText({ instantMs, timeZone }: StartClock, hours: number): string {
  return showTime(Temporal.Instant.fromEpochMilliseconds(Math.round(instantMs + hours * 3_600_000)), timeZone);
}
