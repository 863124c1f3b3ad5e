import Link from "next/link";
import { Temporal } from "temporal-polyfill";
import type { AskedFields } from "@/app/_components/ask-fields";
import { Badge } from "@/app/_components/badge";
import { ConfirmWithReason } from "@/app/_components/confirm-with-reason";
import { Notice } from "@/app/_components/notice";
import { Row } from "@/app/_components/page";
import { withdrawAskAction } from "@/app/castings/[castingId]/find-time/actions";
import { cancelAction, confirmAction } from "@/app/firings/[firingId]/actions";
import { paths } from "@/lib/contracts/paths";
import { showTime } from "@/lib/domain/time/show-time";
import { showUntil } from "@/lib/domain/time/show-until";
import type { AskLine, AskOffer } from "@/lib/server/queries/asks";
import { stateWords, wantedWords } from "./ask-words";
import { ChangeAsk } from "./change-ask";
import styles from "../asks.module.css";

type Props = { readonly ask: AskLine; readonly nowMs: number; readonly today: string; readonly waiting: number; readonly timeZone: string };

/** One ask of one's own: what is wanted, its place and why, and what is offered. */
export function MyAsk({ ask, nowMs, today, waiting, timeZone }: Props) {
  const { askId, castingId, title, offer, because, turnedDown, note } = ask;
  return (
    <article className={styles["ask"]} data-ask={askId}>
      <div className={styles["head"]}>
        <h3>
          <Link href={paths.casting(castingId)}>{title}</Link>
        </h3>
        <Badge tone={offer === null ? "quiet" : "needsYou"}>{stateWords({ ...ask, waiting })}</Badge>
      </div>
      <p>
        {wantedWords(ask)}.{note !== "" && ` “${note}”`}
        <span className={styles["soft"]}>
          {because} {turnedDown > 0 && `${turnedDown === 1 ? "One time" : `${turnedDown} times`} offered before and not taken; ${turnedDown === 1 ? "it is" : "they are"} not offered to it again.`}
        </span>
      </p>
      {offer !== null && <Offer title={title} offer={offer} nowMs={nowMs} timeZone={timeZone} />}
      <Row>
        {offer === null && <ChangeAsk askId={askId} asked={fieldsOf(ask, today)} today={today} />}
        <ConfirmWithReason trigger="Withdraw the ask" title={`Withdraw the ask for ${title}?`} confirmText="Withdraw it" reason="none" values={{ askId }} action={withdrawAskAction}>
          {offer !== null && <p>What is offered now goes to the next.</p>}
        </ConfirmWithReason>
      </Row>
    </article>
  );
}

/** A first day that is past is today by now. */
function fieldsOf({ notBefore, neededBy, lateDays, importance, note }: AskLine, today: string): AskedFields {
  const fromDate = notBefore !== null && notBefore > today ? notBefore : today;
  return { fromDate, neededBy: neededBy ?? "", lateDays: String(lateDays), importance: String(importance), note };
}

function Offer({ title, offer, nowMs, timeZone }: { readonly title: string; readonly offer: AskOffer; readonly nowMs: number; readonly timeZone: string }) {
  const { firingId, kilnName, kilnFromMs, untilMs } = offer;
  const [from, until, now] = [kilnFromMs, untilMs, nowMs].map((ms) => Temporal.Instant.fromEpochMilliseconds(ms));
  if (from === undefined || until === undefined || now === undefined) return null;
  const answers = (
    <Row>
      <ConfirmWithReason trigger="Accept" look="main" title={`Book the time offered for ${title}?`} confirmText="Accept it" cancelText="Not yet" reason="none" values={{ firingId }} action={confirmAction}>
        <p>{`${kilnName}, from ${showTime(from, timeZone)}. From then on it is a booked run, which can be moved or cancelled; the ask is met.`}</p>
      </ConfirmWithReason>
      <ConfirmWithReason trigger="Decline" title={`Decline the time offered for ${title}?`} confirmText="Decline it" cancelText="Not yet" reason="none" values={{ firingId }} action={cancelAction}>
        <p>It goes to the next in the order, and is not offered to you again. The ask stays.</p>
      </ConfirmWithReason>
    </Row>
  );
  return (
    <Notice tone="needsYou" action={answers}>
      <Link href={paths.firing(firingId)}>
        {kilnName}, {showTime(from, timeZone)}
      </Link>{" "}
      is held for you until {showUntil(until, now, timeZone)}.
    </Notice>
  );
}
