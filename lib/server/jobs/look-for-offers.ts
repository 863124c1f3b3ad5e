import { heldUntil } from "@/lib/domain/booking/hold";
import { offeredFrom, willDo } from "@/lib/domain/asking/will-do";
import { ok } from "@/lib/domain/refusal";
import { readCastingInput } from "@/lib/contracts/casting-input";
import { now, toDate, toInstant, toPlainDate } from "@/lib/server/clock";
import { inWorkshop, type Tx } from "@/lib/server/db";
import { tellingFor } from "@/lib/server/jobs/telling-for";
import { loadEquipment } from "@/lib/server/rows/equipment";
import { kilnsToPlan } from "@/lib/server/rows/kilns-to-plan";
import { meshOf } from "@/lib/server/rows/mesh";
import { asksInOrder, firstDayOf, type OpenAskRow } from "@/lib/server/rows/waiting-asks";
import { kilnPlans } from "@/lib/server/runs/kiln-plans";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";
import { firstStart } from "@/lib/server/runs/may-hold";
import { openFiring, type Opener } from "@/lib/server/runs/open-firing";
import { runForAsk } from "@/lib/server/runs/run-for-ask";

/**
 * Offers free time to the open asks of a workshop, in their order, each what is ready soonest. All of it in one
 * transaction behind the calendar's lock: killed in between, nothing happened, and two at once do it one after the
 * other, the second on what the first left. Run it as often as you like: who has an offer gets no second one.
 */
export async function lookForOffers(workshopId: string): Promise<void> {
  await planAhead(workshopId);
  await inWorkshop(workshopId, async (tx) => {
    const telling = await tellingFor(tx, workshopId);
    if (telling === undefined) return;
    await lockCalendar(telling);
    const opener: Opener & { readonly tx: Tx } = {
      ...telling,
      who: { ...telling.who, memberId: null, name: telling.who.workshopName },
      audit: async (entry) => void (await tx.audit.create({ data: { workshopId, at: toDate(telling.now), action: "offer-time", ...entry } })),
    };
    for (const { ask } of await asksInOrder(tx, telling.now, telling.who.timeZone)) {
      if (ask.row.casting.firings.length === 0) await offerTo(opener, ask.row);
    }
  });
}

/** Makes the plans that will be wanted, while nobody waits for the calendar; they are kept for a moment (plan-cache). */
async function planAhead(workshopId: string): Promise<void> {
  const wanted = await inWorkshop(workshopId, async (tx) => {
    const rows = await asksInOrder(tx, now(), "UTC");
    if (rows.length === 0) return { inputs: [], kilns: [] };
    const inputs = [];
    for (const { ask } of rows) {
      const input = readCastingInput(ask.row.casting.input);
      if (input.ok) inputs.push({ input: input.value, mesh: await meshOf(tx, input.value) });
    }
    return { inputs, kilns: await kilnsToPlan(tx, await loadEquipment(tx)) };
  });
  for (const { input, mesh } of wanted.inputs) kilnPlans(input, wanted.kilns, mesh);
}

async function offerTo(opener: Opener & { readonly tx: Tx }, row: OpenAskRow): Promise<void> {
  const { tx, who, now: at } = opener;
  const input = readCastingInput(row.casting.input);
  if (!input.ok) return;
  const neededBy = row.neededBy === null ? null : toPlainDate(row.neededBy);
  const turnedDown = row.offers.flatMap(({ bookings }) => bookings.map((kiln) => ({ equipmentId: kiln.equipmentId, start: toInstant(kiln.startsAt), end: toInstant(kiln.endsAt) })));
  const notBefore = offeredFrom(at, firstDayOf(row, who.timeZone), who.timeZone);
  const run = await runForAsk(tx, who, { input: input.value, ownerId: row.memberId, kilnId: row.kilnId, notBefore, neededBy, turnedDown });
  const wished = { neededBy, lateDays: row.lateDays, wishedFrom: row.wishedFrom === null ? null : toInstant(row.wishedFrom) };
  if (!run.ok || !willDo(run.value, wished)) return;
  const { kilnId, kilnFrom, bookings } = run.value;
  const steamFrom = bookings.find(({ purpose }) => purpose === "steam-out")?.start;
  const casting = { ...row.casting, neededBy: row.neededBy };
  await openFiring(opener, casting, { kilnId, kilnFrom, steamFrom }, { until: async (placed) => ok(heldUntil(at, firstStart(placed.run))), askId: row.askId });
}
