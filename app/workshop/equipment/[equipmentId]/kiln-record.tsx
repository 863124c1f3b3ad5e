import Link from "next/link";
import { Temporal } from "temporal-polyfill";
import { Badge } from "@/app/_components/badge";
import { DataTable, type Column } from "@/app/_components/data-table";
import { Empty } from "@/app/_components/empty";
import { KeyFigure } from "@/app/_components/key-figure";
import { numberText } from "@/app/_components/number-text";
import { Panel } from "@/app/_components/panel";
import { paths } from "@/lib/contracts/paths";
import { HOW_LEARNED } from "@/lib/domain/firing/learn-margin";
import { showDay } from "@/lib/domain/time/show-time";
import type { KilnRecordScreen, PastFiringLine } from "@/lib/server/queries/kiln-record";
import styles from "./kiln-record.module.css";

type KilnRecordProps = { readonly screen: KilnRecordScreen; readonly timeZone: string };

/** How the kiln's firings went, and the margin that new ones are held for because of it. */
export function KilnRecord({ screen: { firings, margin, why }, timeZone }: KilnRecordProps) {
  if (firings.length === 0) {
    return (
      <Panel title="Past firings and margin">
        <Empty title="No past firings">{why}</Empty>
      </Panel>
    );
  }
  return (
    <Panel title="Past firings and margin" lead={why}>
      <div className={styles["record"]}>
        {margin !== null && <KeyFigure small label="times the usual margin" value={numberText(margin.factor, 2)} why={<HowLearned />} />}
        <DataTable caption="Past firings of this kiln, planned against actual" columns={columns(timeZone)} rows={firings} rowKey={({ firingId }) => firingId} />
      </div>
    </Panel>
  );
}

function columns(timeZone: string): readonly Column<PastFiringLine>[] {
  return [
    { key: "title", title: "Firing", cell: ({ firingId, title }) => <Link href={paths.firing(firingId)}>{title}</Link> },
    { key: "opened", title: "Opened", cell: ({ openedMs }) => dayWithYear(openedMs, timeZone) },
    { key: "program", title: "Program", numeric: true, cell: ({ programHours }) => hours(programHours) },
    { key: "actual", title: "Start to opened", numeric: true, cell: ({ openedAfterHours }) => hours(openedAfterHours) },
    { key: "counted", title: "Counts as", numeric: true, cell: ({ countedHours }) => hours(countedHours) },
    { key: "margin", title: "Margin now", numeric: true, cell: ({ marginHours }) => hours(marginHours) },
    { key: "sufficed", title: "Enough?", cell: ({ sufficed, countedHours, programHours, marginHours }) => (sufficed ? <Badge>enough</Badge> : <Badge tone="trouble">{hours(countedHours - programHours - marginHours)} short</Badge>) },
  ];
}

function dayWithYear(instantMs: number, timeZone: string): string {
  const at = Temporal.Instant.fromEpochMilliseconds(instantMs);
  return `${showDay(at, timeZone)} ${at.toZonedDateTimeISO(timeZone).year}`;
}

function hours(value: number): string {
  return `${numberText(value, Math.abs(value) < 10 ? 1 : 0)} h`;
}

function HowLearned() {
  return (
    <>
      {HOW_LEARNED.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
    </>
  );
}
