import type { Metadata } from "next";
import Link from "next/link";
import { Suspense } from "react";
import { Temporal } from "temporal-polyfill";
import { Empty } from "@/app/_components/empty";
import { LinkButton } from "@/app/_components/link-button";
import { Notice } from "@/app/_components/notice";
import { Page, PageHead } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { paths } from "@/lib/contracts/paths";
import { showDayWithYear } from "@/lib/domain/time/show-time";
import { now } from "@/lib/server/clock";
import { pageWho } from "@/lib/server/page-who";
import { seasonScreen, type SeasonScreen } from "@/lib/server/queries/season";
import { SeasonForm } from "./_components/season-form";
import { SeasonProgress } from "./_components/season-progress";
import { SeasonSettlement } from "./_components/season-settlement";
import { StillSo } from "./_components/still-so";

export const metadata: Metadata = { title: "A season, planned anew" };

type Props = { readonly searchParams: Promise<{ readonly changed?: string | string[] }> };
const USUAL = { months: 6, seconds: 20 } as const;

/** All asks and all runs that may move over a chosen season, planned at once in the background, as one settlement. */
export default async function SeasonPage({ searchParams }: Props) {
  const who = await pageWho("settle-clashes", paths.season);
  const screen = await seasonScreen(who, undefined);
  const today = now().toZonedDateTimeISO(who.timeZone).toPlainDate();
  const isRunning = screen !== null && ["waiting", "searching", "placing"].includes(screen.state);
  /** There is a plan that can be accepted. */
  const isOpen = screen?.state === "ready" && screen.settlementId === null;
  const spanWords = screen === null ? "" : `${showDayWithYear(Temporal.PlainDate.from(screen.from))} to ${showDayWithYear(Temporal.PlainDate.from(screen.to))}`;
  const { from, to, seconds } = asBefore(screen, today);
  return (
    <Page>
      <PageHead
        title="A season, planned anew"
        kicker={<Link href={paths.clashes}>Clashes</Link>}
        lead="Every ask and every run that may move, over days that you choose, settled at once as well as can be found. Nothing moves before you accept the plan, and a started firing never moves."
      />
      {(await searchParams).changed !== undefined && <Notice tone="trouble">The calendar has changed since this plan was made, so nothing was moved. Plan the season again; what is different is shown then.</Notice>}
      {screen !== null && isRunning && <SeasonProgress screen={screen} spanWords={spanWords} />}
      {!isRunning && <Ended screen={screen} spanWords={spanWords} />}
      {isOpen && screen.plan !== null && (
        <>
          <Suspense>
            <StillSo who={who} screen={screen} />
          </Suspense>
          <SeasonSettlement who={who} screen={screen} plan={screen.plan} spanWords={spanWords} />
        </>
      )}
      {!isRunning && (
        <Panel id="plan-again" title={screen === null ? "Plan a season" : "Plan again"} tone={isOpen ? "quiet" : "plain"}>
          <SeasonForm key={`${from} ${to}`} from={from} to={to} seconds={seconds} earliest={today.toString()} send={screen === null ? "Plan this season" : "Plan it again"} look={isOpen ? "plain" : "main"} />
        </Panel>
      )}
    </Page>
  );
}

function Ended({ screen, spanWords }: { readonly screen: SeasonScreen | null; readonly spanWords: string }) {
  if (screen === null) return <Empty title="No season has been planned yet">Choose the days below. It takes seconds to minutes in the background, and you see how far it is.</Empty>;
  if (screen.settlementId !== null) return <Notice tone="done" action={<LinkButton href={paths.settlement(screen.settlementId)}>What moved</LinkButton>}>The plan of {spanWords} was accepted.</Notice>;
  if (screen.state === "failed") return <Notice tone="trouble">There is no plan of {spanWords}. {screen.failure}</Notice>;
  if (screen.state === "stale") return <Notice tone="trouble">The planning of {spanWords} broke off: the process that did it says nothing any more, or none has begun it. Nothing was moved. Plan it again.</Notice>;
  if (screen.state === "lost") return <Notice>The planning of {spanWords} was given up before there was a plan. Nothing was moved.</Notice>;
  return null;
}

/** What was asked for last, as far as it still can be; the coming half year otherwise. */
function asBefore(screen: SeasonScreen | null, today: Temporal.PlainDate): { readonly from: string; readonly to: string; readonly seconds: number } {
  const half = today.add({ months: USUAL.months }).toString();
  if (screen === null || !(screen.to > today.toString())) return { from: today.toString(), to: half, seconds: USUAL.seconds };
  return { from: screen.from > today.toString() ? screen.from : today.toString(), to: screen.to, seconds: screen.seconds };
}
