import type { Metadata } from "next";
import { Temporal } from "temporal-polyfill";
import { CautionNote } from "@/app/_components/caution-note";
import { Empty } from "@/app/_components/empty";
import { Notice } from "@/app/_components/notice";
import { Page, PageHead, Row } from "@/app/_components/page";
import { PrintButton } from "@/app/_components/print-button";
import { readDay } from "@/lib/contracts/day";
import { paths } from "@/lib/contracts/paths";
import { CAUTION_SENTENCES } from "@/lib/domain/safety/caution";
import { pageWho } from "@/lib/server/page-who";
import { liftSheet, type LiftSheet } from "@/lib/server/queries/lift-sheet";
import { DayChooser } from "./_components/day-chooser";
import { LiftList } from "./_components/lift-list";
import styles from "./lifts.module.css";

export const metadata: Metadata = { title: "Lift sheet" };

type Props = { readonly searchParams: Promise<{ readonly day?: string }> };

export default async function LiftsPage({ searchParams }: Props) {
  const { day: asked } = await searchParams;
  const who = await pageWho("see-lifts", paths.lifts(asked));
  const wanted = readDay(asked);
  const sheet = await liftSheet(who, wanted);
  const heavy = sheet.lifts.filter((lift) => lift.flag !== "none").length;
  return (
    <Page>
      <PageHead
        kicker="Lift sheet"
        title={longDay(sheet.day)}
        lead={summary(sheet, heavy)}
        actions={
          <Row>
            <DayChooser day={sheet.day} today={sheet.today} />
            <PrintButton />
          </Row>
        }
      />
      {asked !== undefined && wanted === null && (
        <Notice tone="trouble">“{asked}” is not a date such as 2027-03-14; this is the next staffed day instead.</Notice>
      )}
      <p className={styles["duty"]}>{duty(sheet)}</p>
      {sheet.lifts.length === 0 ? (
        <Empty title="No lifts on this day">Nothing is steamed, loaded or unloaded. Choose another day above.</Empty>
      ) : (
        <LiftList lifts={sheet.lifts} timeZone={who.timeZone} />
      )}
      <CautionNote>
        <p>
          Masses are worked out, not weighed: try the weight before you commit to it. Hands are filter figures for
          healthy adults, not limits; whoever doubts a lift stops it.
        </p>
        {CAUTION_SENTENCES.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </CautionNote>
    </Page>
  );
}

function longDay(iso: string): string {
  return Temporal.PlainDate.from(iso).toLocaleString("en-GB", { weekday: "long", day: "numeric", month: "long", year: "numeric" });
}

function summary(sheet: LiftSheet, heavy: number): string {
  const what = sheet.isDefault ? "The next staffed day. " : "";
  const count = sheet.lifts.length;
  if (count === 0) return `${what}No lifts.`;
  const total = count === 1 ? "One lift" : `${count} lifts`;
  return `${what}${total}, ${heavy === 0 ? "none heavy" : `${heavy} heavy`}.`;
}

function duty(sheet: LiftSheet): string {
  if (sheet.closedBecause !== null) return `The workshop is closed: ${sheet.closedBecause}.`;
  if (sheet.handsOnDuty.length === 0) return "Nobody is on duty on this day.";
  const parts = sheet.handsOnDuty.map((h) => `${clock(h.opensMin)}–${clock(h.closesMin)} ${h.hands} ${h.hands === 1 ? "person" : "people"}`);
  return `On duty: ${parts.join(", ")}.`;
}

function clock(minutes: number): string {
  return `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
}
