import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { Temporal } from "temporal-polyfill";
import { LinkButton } from "@/app/_components/link-button";
import { Notice } from "@/app/_components/notice";
import { Page, PageHead, Row } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { isId } from "@/lib/contracts/is-id";
import { paths } from "@/lib/contracts/paths";
import { showTime } from "@/lib/domain/time/show-time";
import { pageWho } from "@/lib/server/page-who";
import { settlementScreen, type SettlementScreen } from "@/lib/server/queries/settlement";
import { KeptMoveLine } from "./_components/kept-move-line";
import { ToldPanel } from "./_components/told-panel";
import styles from "./settlement.module.css";

export const metadata: Metadata = { title: "Settlement" };

type Props = { readonly params: Promise<{ readonly settlementId: string }>; readonly searchParams: Promise<{ readonly done?: string | string[] }> };

/** A settlement that was accepted: where the manager lands, and where those who were told look and answer. */
export default async function SettlementPage({ params, searchParams }: Props) {
  const { settlementId } = await params;
  const who = await pageWho("see-workshop", paths.settlement(settlementId));
  const screen = isId(settlementId) ? await settlementScreen(who, settlementId) : null;
  if (screen === null) notFound();
  const when = showTime(Temporal.Instant.fromEpochMilliseconds(screen.acceptedAtMs), who.timeZone);
  return (
    <Page>
      <PageHead
        title={screen.settles ? "A settlement, carried out" : "Your run has another time"}
        kicker={screen.settles ? <Link href={paths.clashes}>Clashes</Link> : <Link href={paths.notices}>Notices</Link>}
        lead={`${screen.by} accepted it ${when}: “${screen.reason}”`}
      />
      {screen.settles && (await searchParams).done !== undefined && <Notice tone="done">{doneWords(screen)}</Notice>}
      {!screen.settles && <ToldPanel screen={screen} timeZone={who.timeZone} />}
      <Panel title="What moved" lead="All of it together.">
        <ol className={styles["lines"]}>{screen.moves.map((move) => <KeptMoveLine key={move.firingId} move={move} timeZone={who.timeZone} />)}</ol>
      </Panel>
      {screen.settles && <ToldPanel screen={screen} timeZone={who.timeZone} />}
      <Row>
        <LinkButton href={paths.wall}>Kiln wall</LinkButton>
        {screen.settles && <LinkButton href={paths.clashes}>Clashes</LinkButton>}
      </Row>
    </Page>
  );
}

/** "3 runs moved and one was booked. Told, with your reason: Mette and Kwame." */
function doneWords({ moves, told }: SettlementScreen): string {
  const moved = moves.filter(({ from }) => from !== null).length;
  const booked = moves.length - moved;
  const parts = [...(moved === 0 ? [] : [moved === 1 ? "One run moved" : `${moved} runs moved`]), ...(booked === 0 ? [] : [booked === 1 ? "one ask was booked" : `${booked} asks were booked`])];
  const names = told.map(({ name }) => name);
  const who = names.length === 0 ? "Nobody else had to be told." : `Told, with your reason: ${names.length === 1 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1) ?? ""}`}.`;
  const said = parts.join(" and ");
  return `${said.charAt(0).toUpperCase()}${said.slice(1)}. ${who}`;
}
