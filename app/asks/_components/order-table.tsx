import Link from "next/link";
import { Temporal } from "temporal-polyfill";
import { Badge } from "@/app/_components/badge";
import { DataTable, type Column } from "@/app/_components/data-table";
import { paths } from "@/lib/contracts/paths";
import { IMPORTANCE } from "@/lib/contracts/runs";
import { showDate, showTime } from "@/lib/domain/time/show-time";
import type { AskLine } from "@/lib/server/queries/asks";
import { stateWords, wantedWords } from "./ask-words";
import styles from "../asks.module.css";

/** Every ask in its order, with each figure that counts and the one that decided. */
export function OrderTable({ asks, timeZone }: { readonly asks: readonly AskLine[]; readonly timeZone: string }) {
  return <DataTable caption="Asks in the order in which time is offered" columns={columns(timeZone, asks.length)} rows={asks} rowKey={(ask) => ask.askId} />;
}

function columns(timeZone: string, waiting: number): readonly Column<AskLine>[] {
  const at = (ms: number) => showTime(Temporal.Instant.fromEpochMilliseconds(ms), timeZone);
  return [
    { key: "ask", title: "Ask", cell: (ask) => <Wanted ask={ask} /> },
    { key: "weeks", title: "Kiln-weeks", numeric: true, cell: (ask) => `${Math.floor(ask.kilnWeeks)} (${ask.kilnWeeks.toFixed(1)})` },
    { key: "waited", title: "Weeks waited", numeric: true, cell: (ask) => ask.weeksWaited },
    { key: "needed", title: "Needed by", cell: (ask) => (ask.neededBy === null ? "no date" : showDate(Temporal.PlainDate.from(ask.neededBy))) },
    { key: "importance", title: "Hangs on it", cell: (ask) => IMPORTANCE.find(({ value }) => value === ask.importance)?.label ?? "" },
    { key: "asked", title: "Asked", cell: (ask) => at(ask.askedMs) },
    {
      key: "why",
      title: "Why here",
      cell: (ask) => (
        <>
          {ask.because}
          {ask.offer !== null && <span className={styles["soft"]}>{`${ask.offer.kilnName}, ${at(ask.offer.kilnFromMs)}, is offered until ${at(ask.offer.untilMs)}.`}</span>}
        </>
      ),
    },
    { key: "state", title: "State", cell: (ask) => <Badge tone={ask.offer === null ? "quiet" : "strong"}>{stateWords({ ...ask, waiting })}</Badge> },
  ];
}

function Wanted({ ask }: { readonly ask: AskLine }) {
  return (
    <>
      {ask.place}. <Link href={paths.casting(ask.castingId)}>{ask.title}</Link>, {ask.owner}
      <span className={styles["soft"]}>{wantedWords(ask)}{ask.note === "" ? "" : `. “${ask.note}”`}</span>
    </>
  );
}
