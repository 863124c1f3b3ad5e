import { randomUUID } from "node:crypto";
import { Temporal } from "temporal-polyfill";
import { readCastingInput } from "@/lib/contracts/casting-input";
import { can } from "@/lib/domain/access/roles";
import type { Outcome, Problem } from "@/lib/domain/refusal";
import { directQuery, type ReadingOf } from "@/lib/server/query";
import { castingToPlace, castingToPlaceStatement, type CastingToPlace, type OpenAsk } from "@/lib/server/rows/casting-to-place";
import { keptCalendar } from "@/lib/server/rows/kept-calendar";
import { GROUND_ID } from "@/lib/server/rows/kept-ground";
import { meshOf } from "@/lib/server/rows/mesh";
import { kilnsToPlan } from "@/lib/server/rows/kilns-to-plan";
import { loadGround } from "@/lib/server/runs/ground";
import { kilnPlans } from "@/lib/server/runs/kiln-plans";
import { readNotBefore } from "@/lib/server/runs/not-before";
import { plansAndRefusals, runOffers, type Offers } from "@/lib/server/runs/run-offers";
import { loadRunQuestion } from "@/lib/server/runs/run-question";
import type { Statements } from "@/lib/server/statements";

/** How many starts are offered for each kiln. */
const PER_KILN = 4;

export type FindTimeScreen = {
  readonly castingId: string;
  readonly title: string;
  readonly owner: string;
  readonly mine: boolean;
  readonly withdrawn: boolean;
  /** An ISO day, or null. */
  readonly neededBy: string | null;
  /** Today in the workshop: the earliest "not before". */
  readonly today: string;
  /** The run it has already, if any. */
  readonly firingId: string | null;
  /** Whether that run is only held. */
  readonly held: boolean;
  readonly ask: OpenAsk | null;
  /** Made once for this rendering: a doubled click on any of its offers books once. */
  readonly requestKey: string;
  readonly problems: readonly Problem[];
  readonly offers: Offers;
};

type Input = { readonly castingId: string; readonly notBefore?: string | undefined };

/** The earliest possible runs of a casting on every kiln; null when it is not this person's to book. */
export const findTime = directQuery({
  name: "find-time",
  needs: "book-runs",
  ahead: (now, { castingId }: Input) => [castingToPlaceStatement(castingId, now), GROUND_ID],
  run: async (reading: ReadingOf<Statements>, { castingId, notBefore }: Input): Promise<FindTimeScreen | null> => {
    const { tx, who, now } = reading;
    const casting = await castingToPlace(tx, castingId, now);
    if (casting === undefined) return null;
    const mine = casting.memberId === who.memberId;
    if (!mine && !can(who.roles, "manage-runs")) return null;
    const screen = screenOf(reading, casting, mine);
    const from = readNotBefore(notBefore, now, who.timeZone);
    const input = readCastingInput(casting.input);
    const ground = await loadGround(tx, who, { from: now, ownerId: casting.memberId });
    const { equipment, recordVersions } = ground;
    const planned = input.ok ? kilnPlans(input.value, await kilnsToPlan(tx, equipment, recordVersions), await meshOf(tx, input.value)) : input;
    const nothing = { kilns: [], refusals: [] };
    if (!from.ok || !input.ok || !planned.ok) {
      return { ...screen, offers: nothing, problems: [...problemsOf(from), ...problemsOf(planned)] };
    }
    if (screen.withdrawn || screen.firingId !== null) return { ...screen, offers: nothing, problems: [] };
    const { plans, refused } = plansAndRefusals(planned.value.byKiln);
    const question = await loadRunQuestion(tx, who, {
      plan: planned.value.general,
      planByKiln: plans,
      equipment,
      driedBeforeLoading: input.value.mould?.driedBeforeLoading ?? false,
      notBefore: from.value,
      neededBy: casting.neededBy === null ? null : Temporal.PlainDate.from(casting.neededBy),
      perKiln: PER_KILN,
      ownerId: casting.memberId,
      ground,
      calendar: await keptCalendar(tx, who.workshopId, now),
    });
    return { ...screen, problems: [], offers: runOffers(question, refused) };
  },
});

function screenOf({ who, now }: ReadingOf<Statements>, casting: CastingToPlace, mine: boolean): Omit<FindTimeScreen, "problems" | "offers"> {
  return {
    castingId: casting.castingId,
    title: casting.title,
    owner: casting.owner,
    mine,
    withdrawn: casting.withdrawn,
    neededBy: casting.neededBy,
    today: now.toZonedDateTimeISO(who.timeZone).toPlainDate().toString(),
    firingId: casting.firing?.firingId ?? null,
    held: casting.firing?.held === true,
    ask: openAsk(casting.ask),
    requestKey: randomUUID(),
  };
}

function problemsOf(outcome: Outcome<unknown>): readonly Problem[] {
  return outcome.ok ? [] : outcome.problems;
}

/** Times as everywhere on screens. */
function openAsk(ask: OpenAsk | null): OpenAsk | null {
  const iso = (at: string | null) => (at === null ? null : new Date(at).toISOString());
  return ask === null ? null : { ...ask, wishedFrom: iso(ask.wishedFrom), wishedTo: iso(ask.wishedTo) };
}
