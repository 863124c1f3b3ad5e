"use client";

import { useMemo } from "react";
import { Empty } from "@/app/_components/empty";
import { MouldDrawing } from "@/app/_components/mould-drawing";
import { Notice } from "@/app/_components/notice";
import { numberText } from "@/app/_components/number-text";
import { Stack } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { programLine } from "@/app/_components/program-line";
import { StageTable, type StartClock } from "@/app/_components/stage-table";
import { Why } from "@/app/_components/why";
import { useWork } from "@/app/_work/use-work";
import type { WhyScreen } from "@/lib/contracts/why";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { NOT_COVERED } from "@/lib/domain/firing/not-covered";
import type { PlanHistory } from "@/lib/domain/firing/plan-history";
import { completeGlass } from "@/lib/domain/glass/complete-glass";
import type { Glass } from "@/lib/domain/glass/glass";
import { stressLimits } from "@/lib/domain/stress/stress-level";
import { HistoryTable } from "./history-table";
import { useThicknessSweep } from "./use-thickness-sweep";
import { useWhatIf } from "./use-what-if";
import { WhatIfPanel } from "./what-if-panel";
import { WhyFigure } from "./why-figure";
import styles from "./why-page.module.css";

type WhyBodyProps = { readonly screen: WhyScreen; readonly startClock?: StartClock | undefined };

/** Why a plan is as it is: in pictures, in its stages' own words, and by what would change it. */
export function WhyBody({ screen, startClock }: WhyBodyProps) {
  const { input, planned } = screen;
  const glass = completeGlass(input.glass);
  const problems = [...(planned.ok ? [] : planned.problems), ...(glass.ok ? [] : glass.problems)];
  if (!planned.ok || !glass.ok) {
    return (
      <Empty title="There is no plan to explain">
        {problems.map(({ message }) => message).join(" ")} The casting says what to change.
      </Empty>
    );
  }
  return <Explained screen={screen} plan={planned.value} glass={glass.value.glass} startClock={startClock} />;
}

function Explained({ screen, plan, glass, startClock }: WhyBodyProps & { readonly plan: CastingPlan; readonly glass: Glass }) {
  const { input, mayChange, castingId } = screen;
  const mesh = screen.mesh ?? undefined;
  const { stages } = plan.firing;
  const question = useMemo(() => ({ input, mesh, plan: { firing: plan.firing } }), [input, mesh, plan]);
  const followed = useWork("history", question, 1);
  const outcome = followed.last?.answer ?? null;
  const history = outcome !== null && outcome.ok ? outcome.value : null;
  const state = useWhatIf(input, mesh);
  const sweep = useThicknessSweep(input, mesh);
  const segments = useMemo(() => programLine(stages), [stages]);
  const asked = state.answer.outcome;
  const base = state.base.outcome;
  const whatIf = useMemo(() => (asked !== null && asked.ok && base !== null && base.ok && asked.value.firing.hours !== base.value.firing.hours ? programLine(asked.value.firing.stages) : []), [asked, base]);
  const limits = useMemo(() => stressLimits(input.stress), [input]);
  const today = base !== null && base.ok ? base.value.reservation.hours : null;
  return (
    <Stack>
      <Panel title="The program and the glass in it" lead={leadOf(history, screen)}>
        {(followed.failed || (outcome !== null && !outcome.ok)) && <Notice tone="trouble">How the glass follows could not be worked out; the program itself stands.</Notice>}
        <WhyFigure
          segments={segments} whatIf={whatIf} history={history} limits={limits} glass={glass} startClock={startClock}
          failed={followed.failed || (outcome !== null && !outcome.ok)}
          summary={`Firing of ${numberText(plan.firing.hours)} h, hottest ${numberText(plan.firing.peakC)} °C: kiln, glass surface and core over time, and below them the stress at surface and core. The same as a table follows.`}
          mould={input.mould !== undefined && <MouldDrawing plan={plan} shape={input.piece.shape} wallMm={input.mould.wallMm} feeder={input.feeder} />}
          cut={{ wallMm: input.mould?.wallMm ?? 0, oneFace: input.cooling === "one-face" }}
        />
        {history !== null && (
          <Why ask="The same as a table">
            <HistoryTable history={history} startClock={startClock} />
          </Why>
        )}
      </Panel>
      {today !== null && today !== plan.reservation.hours && (
        <Notice>
          By today’s calculation this firing would hold its kiln for {numberText(today)} h, not {numberText(plan.reservation.hours)} h as when it was planned; below, today’s is meant.
        </Notice>
      )}
      <WhatIfPanel input={input} glass={glass} state={state} sweep={sweep} takeInto={mayChange ? castingId : null} />
      <Panel title="Every stage and its reason">
        <StageTable stages={stages} startClock={startClock} />
      </Panel>
      <Panel title="What the calculation does not cover" lead="No program, however slow, takes these away.">
        <dl className={styles["notCovered"]}>
          {NOT_COVERED.map(({ what, why }) => (
            <div key={what}>
              <dt>{what}</dt>
              <dd>{why}</dd>
            </div>
          ))}
        </dl>
      </Panel>
    </Stack>
  );
}

/** How the model sees the piece, and what its program does to it. */
function leadOf(history: PlanHistory | null, { planned, input }: WhyScreen): string {
  const bare = input.mould === undefined;
  const drawn = `The program as the kiln runs it.${bare ? "" : " Until the glass has run in, surface and core are those of the place it will fill."}`;
  if (history === null || !planned.ok) return drawn;
  const { stress } = history;
  return `${drawn} The piece is followed as the slab of ${numberText(2 * history.halfMm)} mm that cools as it does: ${numberText(stress.permanentCentreMPa, 2)} MPa stay in the core, at most ${numberText(stress.passingMPa, 2)} MPa pass on the way down.`;
}
