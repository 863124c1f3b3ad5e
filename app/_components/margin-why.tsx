import { numberText } from "@/app/_components/number-text";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { MarginReasons } from "./margin-reasons";
import { Why } from "./why";

/** Asks after the margin of what is held, and answers with its reasons. */
export function MarginWhy({ reservation }: { readonly reservation: CastingPlan["reservation"] }) {
  return (
    <Why ask={`Why ${numberText(reservation.marginHours)} h of margin?`}>
      <MarginReasons reservation={reservation} />
    </Why>
  );
}
