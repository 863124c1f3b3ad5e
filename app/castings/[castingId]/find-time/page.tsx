import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { Temporal } from "temporal-polyfill";
import { Empty } from "@/app/_components/empty";
import { FormProblems } from "@/app/_components/form-problems";
import { LinkButton } from "@/app/_components/link-button";
import { Notice } from "@/app/_components/notice";
import { Page, PageHead } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { isId } from "@/lib/contracts/is-id";
import { paths } from "@/lib/contracts/paths";
import { showDate } from "@/lib/domain/time/show-time";
import { pageWho } from "@/lib/server/page-who";
import { findTime, type FindTimeScreen } from "@/lib/server/queries/find-time";
import { AskPanel } from "./_components/ask-panel";
import { KilnOffer } from "./_components/kiln-offer";
import { NotBefore } from "./_components/not-before";
import styles from "./find-time.module.css";

export const metadata: Metadata = { title: "Find time" };

type Props = {
  readonly params: Promise<{ readonly castingId: string }>;
  readonly searchParams: Promise<{ readonly notBefore?: string }>;
};

export default async function FindTimePage({ params, searchParams }: Props) {
  const { castingId } = await params;
  const { notBefore } = await searchParams;
  const who = await pageWho("book-runs", paths.findTime(castingId));
  const screen = isId(castingId) ? await findTime(who, { castingId, notBefore }) : null;
  if (screen === null || screen.withdrawn) notFound();
  return (
    <Page>
      <PageHead
        kicker={<Link href={paths.casting(castingId)}>{screen.title}</Link>}
        title="Find time"
        lead={lead(screen)}
        actions={<NotBefore castingId={castingId} today={screen.today} notBefore={notBefore} />}
      />
      <FormProblems problems={screen.problems} />
      {screen.firingId !== null ? (
        <Notice tone="needsYou" action={<LinkButton href={paths.firing(screen.firingId)}>To its firing</LinkButton>}>
          {screen.held ? "A run is held for this casting. Confirm it, or let it go first." : "This casting has a run already. Move that one, or cancel it first."}
        </Notice>
      ) : (
        <Offers screen={screen} timeZone={who.timeZone} />
      )}
    </Page>
  );
}

function lead({ neededBy, owner, mine }: FindTimeScreen): string {
  const by = neededBy === null ? "" : ` Needed by ${showDate(Temporal.PlainDate.from(neededBy))}.`;
  return `The earliest whole runs on every kiln that fits${mine ? "" : `, for ${owner}`}: steam-out, lift in, kiln, lift out.${by}`;
}

function Offers({ screen, timeZone }: { readonly screen: FindTimeScreen; readonly timeZone: string }) {
  const { offers } = screen;
  const offering = offers.kilns.filter((kiln) => kiln.runs.length > 0);
  const others = offers.kilns.filter((kiln) => kiln.runs.length === 0);
  return (
    <>
      {offering.length === 0 && screen.problems.length === 0 && (
        <Empty title="No run can be booked for this casting" action={<LinkButton href={paths.casting(screen.castingId)}>Change the casting</LinkButton>}>
          {offers.refusals.join(" ") || "There is no kiln in this workshop yet; the manager adds them under Workshop."}
        </Empty>
      )}
      {offering.map((kiln, at) => (
        <KilnOffer key={kiln.kilnId} kiln={kiln} screen={screen} timeZone={timeZone} soonest={at === 0} />
      ))}
      {others.length > 0 && (
        <Panel tone="quiet" title="Not offered">
          <ul className={styles["others"]}>
            {others.map((kiln) => (
              <li key={kiln.kilnId}>
                {kiln.whyNot?.includes(kiln.kilnName) === true ? kiln.whyNot : `${kiln.kilnName}: ${kiln.whyNot ?? ""}`}
              </li>
            ))}
          </ul>
        </Panel>
      )}
      <AskPanel screen={screen} kilns={offering} timeZone={timeZone} />
    </>
  );
}
