import { ConfirmWithReason } from "@/app/_components/confirm-with-reason";
import { LinkButton } from "@/app/_components/link-button";
import { Row } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { Temporal } from "temporal-polyfill";
import { paths } from "@/lib/contracts/paths";
import { wantedWords } from "@/app/asks/_components/ask-words";
import { showInterval } from "@/lib/domain/time/show-time";
import type { FindTimeScreen } from "@/lib/server/queries/find-time";
import type { OpenAsk } from "@/lib/server/rows/casting-to-place";
import type { KilnOffers } from "@/lib/server/runs/run-offers";
import { withdrawAskAction } from "../actions";
import { AskForm } from "./ask-form";

type Props = { readonly screen: FindTimeScreen; readonly kilns: readonly KilnOffers[]; readonly timeZone: string };

/** When nothing suits: an ask, which moves nothing, and to which time is offered that becomes free. */
export function AskPanel({ screen, kilns, timeZone }: Props) {
  const { ask, castingId, today, neededBy } = screen;
  if (ask !== null) {
    return (
      <Panel title="Your ask" id="ask">
        <p>
          {wantedWords(ask)}{weeks(ask, timeZone)}. {ask.note !== "" && `“${ask.note}” `}What becomes free is offered to you in turn; you may
          book another run meanwhile.
        </p>
        <Row>
          <LinkButton href={paths.asks}>Your place, and why</LinkButton>
          <ConfirmWithReason trigger="Withdraw the ask" title="Withdraw this ask?" confirmText="Withdraw it" reason="none" values={{ askId: ask.askId }} action={withdrawAskAction} />
        </Row>
      </Panel>
    );
  }
  if (screen.problems.length > 0) return null;
  const lead = "Nothing moves by itself. Time that becomes free is offered to those who ask, in an order that everybody can read, and held for you for a day.";
  return (
    <Panel title={kilns.length === 0 ? "Nothing fits: ask for time" : "Nothing suits you? Ask for time"} id="ask" lead={lead}>
      <AskForm castingId={castingId} today={today} neededBy={neededBy} kilns={kilns.map(({ kilnId, kilnName }) => ({ value: kilnId, label: kilnName }))} />
    </Panel>
  );
}

function weeks({ wishedFrom, wishedTo }: OpenAsk, timeZone: string): string {
  if (wishedFrom === null || wishedTo === null) return "";
  return ` (${showInterval({ start: Temporal.Instant.from(wishedFrom), end: Temporal.Instant.from(wishedTo) }, timeZone)})`;
}
