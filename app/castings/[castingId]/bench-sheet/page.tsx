import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { CautionNote } from "@/app/_components/caution-note";
import { Empty } from "@/app/_components/empty";
import { Page, PageHead } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { PrintButton } from "@/app/_components/print-button";
import { isId } from "@/lib/contracts/is-id";
import { paths } from "@/lib/contracts/paths";
import { MIXING_CAUTIONS, MIXING_ORDER } from "@/lib/domain/mould/mixing-order";
import { CAUTION_SENTENCES } from "@/lib/domain/safety/caution";
import { pageWho } from "@/lib/server/page-who";
import { benchSheet } from "@/lib/server/queries/bench-sheet";
import { BucketTable } from "./_components/bucket-table";
import { sheetLead, waterWords } from "./_components/sheet-words";
import styles from "./bench-sheet.module.css";

export const metadata: Metadata = { title: "Bench sheet" };

type Props = { readonly params: Promise<{ readonly castingId: string }> };

export default async function BenchSheetPage({ params }: Props) {
  const { castingId } = await params;
  const who = await pageWho("write-castings", paths.benchSheet(castingId));
  const sheet = isId(castingId) ? await benchSheet(who, castingId) : null;
  if (sheet === null) notFound();
  const { title, owner, mould } = sheet;
  return (
    <Page>
      <PageHead
        kicker={<Link href={paths.casting(castingId)}>{title}</Link>}
        title="Bench sheet: the mould"
        lead={mould.ok ? sheetLead(owner, mould.value) : owner}
        actions={mould.ok && <PrintButton />}
      />
      {mould.ok ? (
        <>
          <Panel title="Buckets" lead="From the wax outwards, one after the other. The columns add up to the plan’s own figures.">
            <BucketTable batches={mould.value.batches} />
            <p className={styles["after"]}>{waterWords(mould.value.figures)}</p>
            <p>These amounts are what the mould itself holds. What stays on buckets and tools comes on top: 6 to 12 % in published figures.</p>
          </Panel>
          <Panel title="Each bucket, in this order">
            <ol className={styles["order"]}>
              {MIXING_ORDER.map((step) => (
                <li key={step}>{step}</li>
              ))}
            </ol>
          </Panel>
        </>
      ) : (
        <Empty title="No bench sheet">{mould.problems[0].message}</Empty>
      )}
      <CautionNote>
        {[...MIXING_CAUTIONS, ...CAUTION_SENTENCES].map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </CautionNote>
    </Page>
  );
}
