import Link from "next/link";
import { Temporal } from "temporal-polyfill";
import { Badge } from "@/app/_components/badge";
import { ConfirmWithReason } from "@/app/_components/confirm-with-reason";
import { LinkButton } from "@/app/_components/link-button";
import { Row } from "@/app/_components/page";
import { paths } from "@/lib/contracts/paths";
import type { ClashKind } from "@/lib/domain/booking/clash";
import { showInterval } from "@/lib/domain/time/show-time";
import type { ClashFiring } from "@/lib/server/queries/clashes";
import { releaseAction } from "../actions";
import styles from "../clashes.module.css";

type Props = { readonly firing: ClashFiring; readonly kind: ClashKind; readonly timeZone: string };

/** A firing in a clash, with its ways out. One that has started stays; others work around it. */
export function ClashFiringRow({ firing, kind, timeZone }: Props) {
  const from = Temporal.Instant.fromEpochMilliseconds(firing.kilnFromMs);
  const to = Temporal.Instant.fromEpochMilliseconds(firing.kilnToMs);
  return (
    <li className={styles["row"]} data-firing={firing.firingId}>
      <div>
        <Link href={paths.firing(firing.firingId)}>{firing.title}</Link>, {firing.owner}
        <span className={styles["soft"]}>
          {firing.kiln}, {showInterval({ start: from, end: to }, timeZone)}
        </span>
      </div>
      {firing.started ? (
        <Row>
          <Badge tone="strong">started, stays</Badge>
          {kind === "overrun" && <LinkButton href={paths.firing(firing.firingId)}>Lengthen its booking</LinkButton>}
        </Row>
      ) : (
        <Row>
          <LinkButton href={paths.moveRun(firing.firingId)}>Move the run</LinkButton>
          <ConfirmWithReason
            trigger="Release the run"
            look="trouble"
            title={`Release the run of ${firing.title}?`}
            confirmText="Release it"
            values={{ firingId: firing.firingId }}
            reasonHint={`${firing.owner} is told, with this reason. At least 10 characters.`}
            action={releaseAction}
          >
            <p>Every booking of this run becomes free: steamer, trolley, hands and kiln. The casting stays and can be booked again.</p>
          </ConfirmWithReason>
        </Row>
      )}
    </li>
  );
}
