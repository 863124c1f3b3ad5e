import { ConfirmWithReason } from "@/app/_components/confirm-with-reason";
import { Notice } from "@/app/_components/notice";
import { Row } from "@/app/_components/page";
import { showUntil } from "@/lib/domain/time/show-until";
import { Temporal } from "temporal-polyfill";
import type { FiringScreen } from "@/lib/server/queries/firing";
import { cancelAction, confirmAction } from "../actions";

/** Until when a run is only held, with the two ways on: confirm it, or let it go. */
export function HeldNotice({ firing, timeZone }: { readonly firing: FiringScreen; readonly timeZone: string }) {
  const { firingId, heldUntil, offered, mine, mayManage, owner, title } = firing;
  if (heldUntil === null) return null;
  const until = showUntil(Temporal.Instant.from(heldUntil), Temporal.Instant.fromEpochMilliseconds(firing.nowMs), timeZone);
  if (firing.status === "lapsed") return <Notice>This run was held and not booked; everything it held is free again.</Notice>;
  if (firing.status !== "held") return null;
  const whose = mine ? "you" : owner;
  const buttons = (
    <Row>
      <ConfirmWithReason trigger={offered ? "Accept" : "Confirm the run"} look="main" title={`Book the held run of ${title}?`} confirmText="Confirm it" cancelText="Not yet" reason="none" values={{ firingId }} action={confirmAction}>
        <p>The times stay as they are. From then on it is a booked run, which can be moved or cancelled.</p>
      </ConfirmWithReason>
      {mine && (
        <ConfirmWithReason trigger={offered ? "Decline" : "Let it go"} title="Let this time go?" confirmText="Let it go" cancelText="Keep it" reason="none" values={{ firingId }} action={cancelAction}>
          <p>{offered ? "It goes to the next in the order, and is not offered to you again." : "Everything it holds is free for others at once."}</p>
        </ConfirmWithReason>
      )}
    </Row>
  );
  return (
    <Notice tone="needsYou" action={mine || mayManage ? buttons : undefined}>
      {`${offered ? "Offered to" : "Held for"} ${whose} until ${until}. It is not booked yet: then it lapses by itself, and it cannot be loaded before it is confirmed.`}
    </Notice>
  );
}
