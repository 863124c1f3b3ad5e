import { DataTable, type Column } from "@/app/_components/data-table";
import type { ColdStep, ColdWork } from "@/lib/domain/coldworking/cold-work";
import { grainText, hoursText, removeText, workTitle } from "./cold-work-words";

const STEPS: readonly Column<ColdStep>[] = [
  { key: "step", title: "Grit", cell: ({ name }) => name.charAt(0).toUpperCase() + name.slice(1) },
  { key: "grain", title: "Grain", cell: grainText },
  { key: "off", title: "Take off", numeric: true, cell: removeText },
  { key: "hours", title: "Hours", numeric: true, cell: ({ hours }) => hoursText(hours) },
];

/** The grits of one way of working, in order; `more` adds columns, as for ticking on paper. */
export function ColdWorkTable({ work, more = [] }: { readonly work: ColdWork; readonly more?: readonly Column<ColdStep>[] | undefined }) {
  return <DataTable caption={workTitle(work)} showCaption columns={[...STEPS, ...more]} rows={work.steps} rowKey={({ name }) => name} />;
}
