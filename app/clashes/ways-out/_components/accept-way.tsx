import { ConfirmWithReason } from "@/app/_components/confirm-with-reason";
import type { SettlementKind } from "@/lib/contracts/ways-out";
import { acceptWayAction } from "../../actions";

type Props = {
  readonly title: string;
  readonly kind: SettlementKind;
  /** Where it is worked out again when the calendar has changed. */
  readonly again: string;
  readonly moves: readonly { readonly runId: string; readonly kilnId: string; readonly kilnFrom: string }[];
  readonly fingerprint: string;
  readonly requestKey: string;
  /** The plan of a season that it is, or comes from. */
  readonly replanId?: string | undefined;
};

/** Accepts one way out as a whole, with a reason that everybody concerned reads. */
export function AcceptWay({ title, kind, again, moves, fingerprint, requestKey, replanId }: Props) {
  return (
    <ConfirmWithReason
      trigger="Accept this way"
      look="main"
      title={`Accept “${title}”?`}
      confirmText="Accept it, and move them"
      values={{ moves: JSON.stringify(moves), fingerprint, requestKey, kind, again, ...(replanId === undefined ? {} : { replanId }) }}
      reasonHint="Everybody who is moved is told, with this reason. At least 10 characters."
      action={acceptWayAction}
    >
      <p>
        {moves.length === 1 ? "One run moves or is booked." : `${moves.length} runs move or are booked together, or none of them.`} If the calendar
        has changed since, nothing moves: it is worked out again, and you are shown what is different.
      </p>
    </ConfirmWithReason>
  );
}
