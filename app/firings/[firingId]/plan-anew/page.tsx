import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { Temporal } from "temporal-polyfill";
import { ComparedPlans, RUN_FIGURES } from "@/app/_components/compared-plans";
import { Empty } from "@/app/_components/empty";
import { FormProblems } from "@/app/_components/form-problems";
import { LinkButton } from "@/app/_components/link-button";
import { Page, PageHead, Row } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { ProgramPair } from "@/app/_components/program-pair";
import { isId } from "@/lib/contracts/is-id";
import { paths } from "@/lib/contracts/paths";
import { showHours, showTime } from "@/lib/domain/time/show-time";
import { pageWho } from "@/lib/server/page-who";
import { planAnew, type PlanAnewScreen } from "@/lib/server/queries/plan-anew";
import { AnewForm } from "./_components/anew-form";

export const metadata: Metadata = { title: "Plan anew" };

export default async function PlanAnewPage({ params }: { readonly params: Promise<{ readonly firingId: string }> }) {
  const { firingId } = await params;
  const who = await pageWho("book-runs", paths.planAnew(firingId));
  const screen = isId(firingId) ? await planAnew(who, firingId) : null;
  if (screen === null) notFound();
  const until = (iso: string) => showTime(Temporal.Instant.from(iso), who.timeZone);
  return (
    <Page>
      <PageHead
        kicker={<Link href={paths.firing(firingId)}>Firing of {screen.title}</Link>}
        title="Plan anew"
        lead={`Planned ${until(screen.plannedAt)}, held in ${screen.kilnName} until ${until(screen.kilnTo)}. The door closes ${until(screen.kilnFrom)} either way.`}
      />
      <Body screen={screen} until={until} timeZone={who.timeZone} />
    </Page>
  );
}

function Body({ screen, until, timeZone }: { readonly screen: PlanAnewScreen; readonly until: (iso: string) => string; readonly timeZone: string }) {
  const { firingId, anew, kept, kilnFrom } = screen;
  const back = <LinkButton href={paths.firing(firingId)}>Back to the firing</LinkButton>;
  if (screen.status !== "planned") return <Empty title={`This firing is ${screen.status}`} action={back}>Only a planned run can be planned anew.</Empty>;
  if (screen.shared) return <Empty title="This firing is shared" action={back}>It keeps the plan that all in it accepted. Take a changed casting out of it and propose it again.</Empty>;
  if ("problems" in anew) {
    return (
      <>
        <FormProblems problems={anew.problems} title="The casting as it is now cannot stand here" />
        <Row>
          <LinkButton href={paths.moveRun(firingId)} look="main">Move the run</LinkButton>
          {back}
        </Row>
      </>
    );
  }
  return (
    <>
      <Panel title="Then and now" lead={difference(screen.kilnTo, anew.kilnTo, until)}>
        <ProgramPair now={{ name: "Planned anew", stages: anew.plan.firing.stages, kilnFrom }} before={{ name: "As booked", stages: kept.firing.stages, kilnFrom }} timeZone={timeZone} />
        <ComparedPlans caption="The plan as booked and the one of the casting as it is now" figures={RUN_FIGURES} before={{ name: "As booked", plan: kept }} after={{ name: "Anew", plan: anew.plan }} />
      </Panel>
      <Panel title="Take it?" lead="Kiln, unloading, lifts and check sheet change together, or nothing does. Checks whose numbers change want a tick of their own.">
        <AnewForm firingId={firingId} version={screen.version} requestKey={screen.requestKey} owner={screen.owner} mine={screen.mine} />
      </Panel>
    </>
  );
}

function difference(booked: string, anew: string, until: (iso: string) => string): string {
  const hours = (Date.parse(anew) - Date.parse(booked)) / 3_600_000;
  if (hours === 0) return `The kiln is free again ${until(anew)}, as booked.`;
  return `The kiln would be free again ${until(anew)}, ${showHours(Math.abs(hours))} ${hours > 0 ? "later" : "sooner"} than booked.`;
}
