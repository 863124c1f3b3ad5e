import { Temporal } from "temporal-polyfill";
import { ConfirmWithReason } from "@/app/_components/confirm-with-reason";
import { LinkButton } from "@/app/_components/link-button";
import { Notice } from "@/app/_components/notice";
import { Stack } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { ShelfDrawing } from "@/app/_sharing/shelf-drawing";
import { SharedTable } from "@/app/_sharing/shared-table";
import styles from "@/app/_sharing/sharing.module.css";
import { paths } from "@/lib/contracts/paths";
import { SPLIT_RULE } from "@/lib/domain/sharing/split-cost";
import { showTime } from "@/lib/domain/time/show-time";
import type { FiringScreen } from "@/lib/server/queries/firing";
import type { FiringSharing, OpenJoining, RoomLine } from "@/lib/server/queries/firing-sharing";
import { leaveAction } from "../actions";

type Props = { readonly firing: FiringScreen; readonly sharing: FiringSharing; readonly timeZone: string };

/** Who shares this firing, what is proposed for it, and whether there is room for another casting. */
export function SharingPanel({ firing, sharing, timeZone }: Props) {
  const { joining, room } = sharing;
  return (
    <>
      {joining !== null && <Proposed joining={joining} timeZone={timeZone} />}
      <Together firing={firing} sharing={sharing} />
      {room !== null && <Room firingId={firing.firingId} room={room} />}
    </>
  );
}

function Proposed({ joining, timeZone }: { readonly joining: OpenJoining; readonly timeZone: string }) {
  const { joiningId, by, castingTitle, expiresAt, waitsForYou, yours } = joining;
  const until = showTime(Temporal.Instant.from(expiresAt), timeZone);
  const who = yours ? "You propose" : `${by} proposes`;
  return (
    <Notice tone={waitsForYou ? "needsYou" : "plain"} action={<LinkButton href={paths.joining(joiningId)}>{waitsForYou ? "Answer it" : "Look at it"}</LinkButton>}>
      {`${who} that ${castingTitle} shares this firing. ${waitsForYou ? "Your answer is wanted" : "Answers are wanted"} by ${until}.`}
    </Notice>
  );
}

function Together({ firing: { firingId, status, mayManage }, sharing: { view, changedSince } }: Omit<Props, "timeZone">) {
  if (view === null) return null;
  const leaves = view.rows.filter(({ mine }) => status === "planned" && (mine || mayManage));
  return (
    <Panel title="Shared" lead={`${view.rows.length} castings in one firing. Who opened it moves or cancels it for all, with a reason; everybody may take their own casting out before it starts.`}>
      <Stack>
        {changedSince.length > 0 && <Notice>{`${changedSince.join(" and ")} ${changedSince.length === 1 ? "was" : "were"} changed since; the joined plan keeps what was accepted.`}</Notice>}
        <SharedTable view={view} />
        <p>{SPLIT_RULE}</p>
        <div className={styles["shelves"]}>
          <ShelfDrawing title="On the shelf" shelf={view.shelf} moment={view.after} />
        </div>
        <div className={styles["answers"]}>
          {leaves.map(({ castingId, title, mine }) => (
            <ConfirmWithReason key={castingId} trigger={`Take ${title} out`} look="plain" title={`Take ${title} out of this firing?`} confirmText="Take it out" values={{ firingId, castingId }} reason={mine ? "offered" : "asked"} action={leaveAction}>
              <p>The plan is made anew for the rest, at the same start, and everybody else is told. The casting stays and can be booked again.</p>
            </ConfirmWithReason>
          ))}
        </div>
      </Stack>
    </Panel>
  );
}

function Room({ firingId, room }: { readonly firingId: string; readonly room: readonly RoomLine[] }) {
  if (room.length === 0) return null;
  return (
    <Panel tone="quiet" title="Room for another casting" lead="Castings of yours without a run, and whether glass and shelf allow them here.">
      <ul role="list" className={styles["lines"]}>
        {room.map(({ castingId, title, whyNot }) => (
          <li key={castingId}>
            <p>{whyNot === null ? `${title} could join.` : `${title} cannot: ${whyNot}`}</p>
            {whyNot === null && <LinkButton href={paths.shareFiring(firingId, castingId)}>See how, {title}</LinkButton>}
          </li>
        ))}
      </ul>
    </Panel>
  );
}
