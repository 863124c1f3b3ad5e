import type { Temporal } from "temporal-polyfill";
import { LinkButton } from "@/app/_components/link-button";
import { Row } from "@/app/_components/page";
import { paths } from "@/lib/contracts/paths";

/** How far one step goes: far enough to move, near enough that a firing of five weeks stays in sight. */
const STEP_WEEKS = 6;

/** Earlier, this week, later. Works without script. */
export function WallMover({ fromDay, isNow }: { readonly fromDay: Temporal.PlainDate; readonly isNow: boolean }) {
  return (
    <nav aria-label="Weeks in sight">
      <Row>
        <LinkButton href={from(fromDay.subtract({ weeks: STEP_WEEKS }))} scroll={false}>
          ← Earlier
        </LinkButton>
        {!isNow && (
          <LinkButton href={paths.wall} scroll={false}>
            This week
          </LinkButton>
        )}
        <LinkButton href={from(fromDay.add({ weeks: STEP_WEEKS }))} scroll={false}>
          Later →
        </LinkButton>
      </Row>
    </nav>
  );
}

function from(day: Temporal.PlainDate): string {
  return `${paths.wall}?from=${day.toString()}`;
}
