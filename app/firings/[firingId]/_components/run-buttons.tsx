import { ConfirmWithReason } from "@/app/_components/confirm-with-reason";
import { LinkButton } from "@/app/_components/link-button";
import { paths } from "@/lib/contracts/paths";
import type { FiringScreen } from "@/lib/server/queries/firing";
import { cancelAction, releaseAction } from "../actions";

/** Move, cancel or release: only while the firing has not started. */
export function RunButtons({ firing }: { readonly firing: FiringScreen }) {
  const { firingId, mine, mayManage, status, shared } = firing;
  if (status !== "planned" || (!mine && !mayManage)) return null;
  return (
    <>
      <LinkButton href={paths.moveRun(firingId)}>Move the run</LinkButton>
      {mine ? (
        <ConfirmWithReason trigger="Cancel the run" look="trouble" title="Cancel this run?" confirmText="Cancel the run" reason={shared ? "asked" : "offered"} values={{ firingId }} action={cancelAction}>
          {shared && <p>It is cancelled for everybody who shares it, and they are told your reason. To go alone, take your own casting out instead.</p>}
          <p>Steamer, trolley, hands and kiln become free for others at once. The casting stays and can be booked again.</p>
        </ConfirmWithReason>
      ) : (
        <ConfirmWithReason
          trigger="Release the run"
          look="trouble"
          title={`Release the run of ${firing.title}?`}
          confirmText="Release it"
          values={{ firingId }}
          reasonHint={`${firing.owner} is told, with this reason. At least 10 characters.`}
          action={releaseAction}
        >
          <p>Every booking of this run becomes free. The casting stays and can be booked again.</p>
        </ConfirmWithReason>
      )}
    </>
  );
}
