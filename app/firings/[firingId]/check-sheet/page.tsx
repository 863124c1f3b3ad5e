import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { Temporal } from "temporal-polyfill";
import { CautionNote } from "@/app/_components/caution-note";
import { Page, PageHead, Row } from "@/app/_components/page";
import { PrintButton } from "@/app/_components/print-button";
import { isId } from "@/lib/contracts/is-id";
import { paths } from "@/lib/contracts/paths";
import { CAUTION_SENTENCES } from "@/lib/domain/safety/caution";
import { showTimeWithYear } from "@/lib/domain/time/show-time";
import { pageWho } from "@/lib/server/page-who";
import { checkSheetScreen } from "@/lib/server/queries/check-sheet";
import { NextStep } from "./_components/next-step";
import { SheetPhases } from "./_components/sheet-phases";

export const metadata: Metadata = { title: "Check sheet" };

export default async function CheckSheetPage({ params }: { readonly params: Promise<{ readonly firingId: string }> }) {
  const { firingId } = await params;
  const who = await pageWho("tick-checks", paths.checkSheet(firingId));
  const sheet = isId(firingId) ? await checkSheetScreen(who, firingId) : null;
  if (sheet === null) notFound();
  const from = showTimeWithYear(Temporal.Instant.fromEpochMilliseconds(sheet.kilnFromMs), who.timeZone);
  return (
    <Page>
      <PageHead
        kicker={<Link href={paths.firing(firingId)}>Firing of {sheet.title}</Link>}
        title="Check sheet"
        lead={`${sheet.title}, ${sheet.owner}. ${sheet.kiln}, from ${from}.`}
        actions={
          <Row>
            <PrintButton />
          </Row>
        }
      />
      <NextStep sheet={sheet} />
      <SheetPhases sheet={sheet} timeZone={who.timeZone} />
      <CautionNote>
        {CAUTION_SENTENCES.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </CautionNote>
    </Page>
  );
}
