import { DataTable, type Column } from "@/app/_components/data-table";
import { numberText } from "@/app/_components/number-text";
import type { StartClock } from "@/app/_components/stage-table";
import type { BodyRow } from "@/lib/domain/firing/history-rows";
import type { PlanHistory } from "@/lib/domain/firing/plan-history";
import { nearestRow } from "./history-frame";
import { momentText } from "./history-words";

const EVERY = 24;

/** The picture in words and numbers, some two dozen moments from closing to cold. */
export function HistoryTable({ history, startClock }: { readonly history: PlanHistory; readonly startClock?: StartClock | undefined }) {
  const { rows, moments, glassFromH } = history;
  const endH = rows.at(-1)?.h ?? 0;
  const hours = [...Array.from({ length: EVERY + 1 }, (_, i) => (endH * i) / EVERY), ...moments.map(({ h }) => h)];
  const places = [...new Set(hours.map((h) => nearestRow(rows, h)))].toSorted((a, b) => a - b);
  const told = places.flatMap((place) => rows[place] ?? []);
  const stress = (row: BodyRow, MPa: number) => (row.h >= glassFromH ? numberText(MPa, 2) : "no glass yet");
  const columns: readonly Column<BodyRow>[] = [
    { key: "when", title: "When", cell: ({ h }) => momentText(h, startClock) },
    { key: "kiln", title: "Kiln, °C", numeric: true, cell: ({ kilnC }) => numberText(kilnC) },
    { key: "surface", title: "Surface, °C", numeric: true, cell: ({ surfaceC }) => numberText(surfaceC) },
    { key: "core", title: "Core, °C", numeric: true, cell: ({ coreC }) => numberText(coreC) },
    { key: "surfaceMPa", title: "Surface, MPa", numeric: true, cell: (row) => stress(row, row.surfaceMPa) },
    { key: "centreMPa", title: "Core, MPa", numeric: true, cell: (row) => stress(row, row.centreMPa) },
  ];
  return <DataTable caption="Kiln, glass and stress through the firing" columns={columns} rows={told} rowKey={({ h }) => String(h)} />;
}
