import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { Temporal } from "temporal-polyfill";
import { FiringCurve } from "@/app/_components/firing-curve";
import { KeyFigure } from "@/app/_components/key-figure";
import { LinkButton } from "@/app/_components/link-button";
import { MarginReasons } from "@/app/_components/margin-reasons";
import { Page, PageHead, Row } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { RunTimeline } from "@/app/_components/run-timeline";
import { isId } from "@/lib/contracts/is-id";
import { paths } from "@/lib/contracts/paths";
import { showInterval, showKilnWeeks, showTime } from "@/lib/domain/time/show-time";
import { pageWho } from "@/lib/server/page-who";
import { firingScreen, type FiringScreen } from "@/lib/server/queries/firing";
import { firingSharing } from "@/lib/server/queries/firing-sharing";
import { FiringCostPanel } from "./_components/firing-cost-panel";
import { FiringNotices } from "./_components/firing-notices";
import { HeldNotice } from "./_components/held-notice";
import { RunButtons } from "./_components/run-buttons";
import { SharingPanel } from "./_components/sharing-panel";
import { TimeForms } from "./_components/time-forms";
import { STATUS_WORDS } from "./_components/status-words";
import styles from "./firing.module.css";

export const metadata: Metadata = { title: "Firing" };

export default async function FiringPage({ params }: { readonly params: Promise<{ readonly firingId: string }> }) {
  const { firingId } = await params;
  const who = await pageWho("see-workshop", paths.firing(firingId));
  const firing = isId(firingId) ? await firingScreen(who, firingId) : null;
  if (firing === null) notFound();
  const sharing = await firingSharing(who, firingId);
  const held = { start: Temporal.Instant.from(firing.kiln.from), end: Temporal.Instant.from(firing.kiln.to) };
  return (
    <Page>
      <PageHead
        kicker={STATUS_WORDS[firing.status] ?? firing.status}
        title={firing.title}
        lead={`${firing.owner}. ${firing.kiln.name}, ${showInterval(held, who.timeZone)}.`}
        actions={<Actions firing={firing} />}
      />
      <HeldNotice firing={firing} timeZone={who.timeZone} />
      <FiringNotices firing={firing} timeZone={who.timeZone} />
      <Panel title="The run" lead="Everything this firing holds, moved together or not at all.">
        <RunTimeline parts={firing.parts} lifts={firing.lifts} stages={firing.plan.firing.stages} kilnFrom={firing.kiln.from} timeZone={who.timeZone} />
      </Panel>
      <Panel title="Firing plan" lead={`Made ${showTime(Temporal.Instant.from(firing.plannedAt), who.timeZone)} and kept as it was.`} actions={<LinkButton href={paths.firingWhy(firingId)}>Why so long?</LinkButton>}>
        <Figures firing={firing} />
        <FiringCurve stages={firing.plan.firing.stages} startClock={{ instantMs: held.start.epochMilliseconds, timeZone: who.timeZone }} />
        {firing.plan.warnings.length > 0 && (
          <ul className={styles["warnings"]}>
            {firing.plan.warnings.map((warning) => (
              <li key={warning}>{warning}</li>
            ))}
          </ul>
        )}
      </Panel>
      <SharingPanel firing={firing} sharing={sharing} timeZone={who.timeZone} />
      <FiringCostPanel firing={firing} />
      <TimeForms firing={firing} timeZone={who.timeZone} />
    </Page>
  );
}

function Actions({ firing }: { readonly firing: FiringScreen }) {
  const ended = ["cancelled", "released", "lapsed"].includes(firing.status);
  return (
    <Row>
      {!ended && firing.status !== "held" && (
        <LinkButton href={paths.checkSheet(firing.firingId)} look={firing.status === "opened" ? "plain" : "main"}>
          Check sheet{firing.status === "planned" && firing.checksOpen > 0 ? `, ${firing.checksOpen} open` : ""}
        </LinkButton>
      )}
      {firing.mine && <LinkButton href={paths.casting(firing.castingId)}>The casting</LinkButton>}
      <RunButtons firing={firing} />
      {ended && firing.mine && <LinkButton href={paths.findTime(firing.castingId)}>Find time again</LinkButton>}
    </Row>
  );
}

function Figures({ firing: { plan } }: { readonly firing: FiringScreen }) {
  const { reservation, stress } = plan;
  const [weeks, unit] = showKilnWeeks(reservation.hours).split(" ");
  return (
    <div className={styles["figures"]}>
      <KeyFigure label="Kiln time" value={weeks} unit={unit} why={<MarginReasons reservation={reservation} />} />
      <KeyFigure label="Hottest" value={String(Math.round(plan.firing.peakC))} unit="°C" />
      <KeyFigure label="Permanent tension, core" value={stress.permanentCentreMPa.toFixed(2)} unit="MPa" why={`About ${stress.centreNmPerCm.toFixed(0)} nm/cm seen in polarised light.`} />
      <KeyFigure label="Energy, about" value={plan.energy.kWh.toFixed(0)} unit="kWh" />
    </div>
  );
}
