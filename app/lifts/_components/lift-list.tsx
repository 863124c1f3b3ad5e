import Link from "next/link";
import { Temporal } from "temporal-polyfill";
import { Badge } from "@/app/_components/badge";
import { DataTable, type Column } from "@/app/_components/data-table";
import { paths } from "@/lib/contracts/paths";
import { showClock } from "@/lib/domain/time/show-time";
import type { SheetLift } from "@/lib/server/queries/lift-sheet";
import { FLAG_WORDS, WHAT_WORDS } from "./lift-words";
import styles from "../lifts.module.css";

/** The heavy lifts first, as they need thought before the day begins; then all of the day by the clock. */
export function LiftList({ lifts, timeZone }: { readonly lifts: readonly SheetLift[]; readonly timeZone: string }) {
  const heavy = lifts.filter((lift) => lift.flag !== "none").toSorted((a, b) => b.kg - a.kg);
  const light = lifts.filter((lift) => lift.flag === "none");
  return (
    <>
      {heavy.length > 0 && <Lifts caption="Heavy" lifts={heavy} timeZone={timeZone} />}
      {light.length > 0 && <Lifts caption={heavy.length > 0 ? "The others, by the clock" : "By the clock"} lifts={light} timeZone={timeZone} />}
    </>
  );
}

function Lifts({ caption, lifts, timeZone }: { readonly caption: string; readonly lifts: readonly SheetLift[]; readonly timeZone: string }) {
  return (
    <DataTable
      caption={caption}
      showCaption
      columns={columns(timeZone)}
      rows={lifts}
      rowKey={(lift) => lift.liftId}
      rowTone={(lift) => (lift.flag === "red" ? "trouble" : lift.flag === "amber" ? "needsYou" : "plain")}
    />
  );
}

function columns(timeZone: string): readonly Column<SheetLift>[] {
  const clock = (ms: number) => showClock(Temporal.Instant.fromEpochMilliseconds(ms), timeZone);
  return [
    { key: "time", title: "Time", cell: (lift) => <span className={styles["time"]}>{clock(lift.startMs)}–{clock(lift.endMs)}</span> },
    {
      key: "casting",
      title: "Casting",
      cell: (lift) => (
        <>
          <Link href={paths.firing(lift.firingId)}>{lift.casting}</Link>
          <span className={styles["soft"]}>{WHAT_WORDS[lift.what] ?? lift.what}, for {lift.owner}</span>
        </>
      ),
    },
    { key: "kg", title: "Mass", numeric: true, cell: (lift) => <Mass lift={lift} /> },
    { key: "hands", title: "Hands", numeric: true, cell: (lift) => lift.hands },
    { key: "from", title: "From → to", cell: (lift) => `${lift.fromPlace} → ${lift.toPlace}` },
    { key: "trolley", title: "Trolley", cell: (lift) => lift.trolley ?? "none" },
    { key: "mind", title: "Mind", cell: (lift) => <Mind lift={lift} /> },
  ];
}

function Mass({ lift }: { readonly lift: SheetLift }) {
  return (
    <>
      <strong className={styles["kg"]}>{lift.kg.toFixed(1)} kg</strong>
      <span className={styles["soft"]}>{lift.mouldState}{lift.what === "unload" ? ", with glass" : ""}</span>
    </>
  );
}

function Mind({ lift }: { readonly lift: SheetLift }) {
  return (
    <>
      <span className={styles["tags"]}>
        {lift.flag !== "none" && <Badge tone={lift.flag === "red" ? "trouble" : "needsYou"}>{FLAG_WORDS[lift.flag] ?? lift.flag}</Badge>}
        {lift.onlyHeld && <Badge tone="needsYou">only held</Badge>}
        {lift.hot && <Badge tone="strong">hot</Badge>}
        {lift.wet && <Badge tone="strong">wet</Badge>}
      </span>
      <span className={styles["soft"]}>{lift.why}</span>
    </>
  );
}
