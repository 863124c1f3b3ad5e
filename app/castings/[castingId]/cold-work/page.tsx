import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { CautionNote } from "@/app/_components/caution-note";
import type { Column } from "@/app/_components/data-table";
import { Empty } from "@/app/_components/empty";
import { Page, PageHead, Stack } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { PrintButton } from "@/app/_components/print-button";
import { TickBox } from "@/app/_components/tick-box";
import { ColdWorkTable } from "@/app/castings/_components/cold-work-table";
import { coldWorkLead, HOURS_WORDS, RULE_WORDS, SURFACE_CHOICES, WORKED_CHOICES } from "@/app/castings/_components/cold-work-words";
import { readColdWorkChoice, type ColdWorkChoice } from "@/lib/contracts/cold-work-choice";
import { isId } from "@/lib/contracts/is-id";
import { paths } from "@/lib/contracts/paths";
import { coldWorkCautions } from "@/lib/domain/coldworking/cautions";
import type { ColdStep } from "@/lib/domain/coldworking/cold-work";
import { coldWorkOf } from "@/lib/domain/firing/casting-cold-work";
import { mayHoldLead } from "@/lib/domain/glass/may-hold-lead";
import { CAUTION_SENTENCES } from "@/lib/domain/safety/caution";
import { pageWho } from "@/lib/server/page-who";
import { coldWorkSheet } from "@/lib/server/queries/cold-work-sheet";

export const metadata: Metadata = { title: "Cold-work sheet" };

type Props = {
  readonly params: Promise<{ readonly castingId: string }>;
  readonly searchParams: Promise<Readonly<Record<string, string | string[] | undefined>>>;
};

const ON_PAPER: readonly Column<ColdStep>[] = [
  { key: "took", title: "Took", cell: () => "……… h" },
  { key: "done", title: "Marks gone", cell: () => <TickBox /> },
];

export default async function ColdWorkPage({ params, searchParams }: Props) {
  const { castingId } = await params;
  const choice = readColdWorkChoice(await searchParams);
  const who = await pageWho("write-castings", paths.coldWork(castingId, choice));
  const sheet = isId(castingId) ? await coldWorkSheet(who, castingId) : null;
  if (sheet === null) notFound();
  const plan = coldWorkOf(sheet.input, choice.surface, choice.worked, sheet.mesh);
  return (
    <Page>
      <PageHead
        kicker={<Link href={paths.casting(castingId)}>{sheet.title}</Link>}
        title="Cold-work sheet"
        lead={`${sheet.owner}. Out of the mould: ${choiceWords(choice)}.`}
        actions={plan.ok && <PrintButton />}
      />
      {plan.ok ? (
        <Panel title="Grits" lead={coldWorkLead(plan.value)}>
          <Stack>
            {plan.value.works.map((work) => (
              <ColdWorkTable key={work.work} work={work} more={ON_PAPER} />
            ))}
            <p>{RULE_WORDS}</p>
            <p>{HOURS_WORDS}</p>
          </Stack>
        </Panel>
      ) : (
        <Empty title="No cold-work sheet">{plan.problems[0].message}</Empty>
      )}
      <CautionNote>
        {[...coldWorkCautions(mayHoldLead(sheet.input.glass)), ...CAUTION_SENTENCES].map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </CautionNote>
    </Page>
  );
}

function choiceWords({ surface, worked }: ColdWorkChoice): string {
  const [out, how] = [SURFACE_CHOICES.find(({ value }) => value === surface), WORKED_CHOICES.find(({ value }) => value === worked)];
  return `${out?.label ?? ""}; worked ${how?.label ?? ""}`;
}
