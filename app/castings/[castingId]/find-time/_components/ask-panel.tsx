import { Temporal } from "temporal-polyfill";
import { ConfirmWithReason } from "@/app/_components/confirm-with-reason";
import { Panel } from "@/app/_components/panel";
import { IMPORTANCE } from "@/lib/contracts/runs";
import { showInterval } from "@/lib/domain/time/show-time";
import type { FindTimeScreen } from "@/lib/server/queries/find-time";
import type { KilnOffers } from "@/lib/server/runs/run-offers";
import { withdrawAskAction } from "../actions";
import { AskForm } from "./ask-form";

type Props = { readonly screen: FindTimeScreen; readonly kilns: readonly KilnOffers[]; readonly timeZone: string };

/** For weeks that somebody else has: a wish, which moves nothing and which the manager sees. */
export function AskPanel({ screen, kilns, timeZone }: Props) {
  const { ask } = screen;
  if (ask !== null) {
    const span = { start: Temporal.Instant.from(ask.wishedFrom), end: Temporal.Instant.from(ask.wishedTo) };
    const importance = IMPORTANCE.find((one) => one.value === ask.importance)?.label.toLowerCase();
    return (
      <Panel title="Your wish" id="ask">
        <p>
          {ask.kilnName}, {showInterval(span, timeZone)}; {importance}. {ask.note !== "" && `“${ask.note}” `}The manager sees it and
          answers; you may book another run meanwhile.
        </p>
        <ConfirmWithReason trigger="Withdraw the wish" title="Withdraw this wish?" confirmText="Withdraw it" reason="none" values={{ askId: ask.askId }} action={withdrawAskAction} />
      </Panel>
    );
  }
  if (kilns.length === 0) return null;
  return (
    <Panel title="Others have the weeks you need?" id="ask" lead="Ask for them. Nothing moves by itself: the manager sees both wishes and settles them.">
      <AskForm castingId={screen.castingId} today={screen.today} kilns={kilns.map(({ kilnId, kilnName }) => ({ value: kilnId, label: kilnName }))} />
    </Panel>
  );
}
