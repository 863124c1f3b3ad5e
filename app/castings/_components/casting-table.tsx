import Link from "next/link";
import { Temporal } from "temporal-polyfill";
import { DataTable, type Column } from "@/app/_components/data-table";
import { LinkButton } from "@/app/_components/link-button";
import { paths } from "@/lib/contracts/paths";
import { showDate } from "@/lib/domain/time/show-time";
import type { CastingLine } from "@/lib/server/rows/castings-with-next";
import { NextStep } from "./next-step";

type CastingTableProps = { readonly castings: readonly CastingLine[]; readonly timeZone: string; readonly withOwner: boolean };

/** Castings with what is next for each; those that wait for somebody are marked. */
export function CastingTable({ castings, timeZone, withOwner }: CastingTableProps) {
  const columns: readonly Column<CastingLine>[] = [
    { key: "title", title: "Casting", cell: (line) => <Link href={paths.casting(line.castingId)}>{line.title}</Link> },
    ...(withOwner ? [{ key: "owner", title: "Whose", cell: (line: CastingLine) => line.owner }] : []),
    { key: "next", title: "Next", cell: (line) => <NextStep line={line} timeZone={timeZone} /> },
    { key: "needed", title: "Needed by", cell: (line) => (line.neededBy === null ? "" : showDate(Temporal.PlainDate.from(line.neededBy))) },
    { key: "go", title: "Go on", untitled: true, cell: (line) => <Go line={line} /> },
  ];
  return (
    <DataTable
      caption="Castings"
      columns={columns}
      rows={castings}
      rowKey={(line) => line.castingId}
      rowTone={(line) => (line.overdue ? "trouble" : line.step === "book-run" || line.heldUntilMs !== null ? "needsYou" : "plain")}
    />
  );
}

function Go({ line }: { readonly line: CastingLine }) {
  const of = <span className="sr-only"> of {line.title}</span>;
  if (line.firingId !== null) return <LinkButton href={paths.firing(line.firingId)}>Firing{of}</LinkButton>;
  return <LinkButton href={paths.findTime(line.castingId)}>{line.step === "asked" ? "See the ask" : "Find time"}{of}</LinkButton>;
}
