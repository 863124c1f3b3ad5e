import { randomUUID } from "node:crypto";
import fc from "fast-check";
import pg from "pg";
import { afterAll, expect, it } from "vitest";
import type { Outcome } from "@/lib/domain/refusal";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { codeOf, describedCasting } = await import("@/tests/helpers/booking");
const { bookRun } = await import("@/lib/server/commands/book-run");
const { cancelRun } = await import("@/lib/server/commands/cancel-run");
const { moveRun } = await import("@/lib/server/commands/move-run");
const { findTime } = await import("@/lib/server/queries/find-time");
const { moveTimes } = await import("@/lib/server/queries/move-times");
const owner = new pg.Client({ connectionString: database.ownerUrl });
await owner.connect();
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

/** "North kiln kiln 2027-… 2027-…". */
type Part = string;
type Run = { readonly firingId: string; readonly kiln: string; readonly from: number; readonly to: number; readonly parts: readonly Part[] };
/** All that the model knows: which casting has which run. */
type Model = { readonly runs: Map<number, Run> };
type Offer = { readonly kilnId: string; readonly kilnFrom: string; readonly kilnTo: string; readonly steamFrom: string | null; readonly parts: readonly { readonly purpose: string; readonly equipmentName: string; readonly from: string; readonly to: string }[] };
type Real = { readonly made: MadeWorkshop; readonly castings: readonly string[]; kept: { readonly at: number; readonly offer: Offer } | undefined; last: { readonly again: () => Promise<Outcome<unknown>>; readonly was: Outcome<unknown> } | undefined };

const partsOf = ({ parts }: Offer): readonly Part[] => parts.map(({ equipmentName, purpose, from, to }) => `${equipmentName} ${purpose} ${Date.parse(from)} ${Date.parse(to)}`);
const runOf = (firingId: string, offer: Offer): Run => ({ firingId, kiln: offer.kilnId, from: Date.parse(offer.kilnFrom), to: Date.parse(offer.kilnTo), parts: partsOf(offer) });

async function standing({ made }: Real): Promise<readonly Part[]> {
  const { rows } = await owner.query("SELECT e.name, b.purpose, b.starts_at, b.ends_at FROM booking b JOIN equipment e USING (workshop_id, equipment_id) WHERE b.workshop_id = $1 AND b.standing", [made.workshopId]);
  return rows.map((row) => `${row.name} ${row.purpose} ${row.starts_at.getTime()} ${row.ends_at.getTime()}`).sort();
}

async function sameAs(model: Model, real: Real): Promise<void> {
  expect(await standing(real)).toEqual([...model.runs.values()].flatMap(({ parts }) => parts).sort());
}

async function offersFor({ made, castings }: Real, at: number): Promise<readonly Offer[]> {
  const screen = await findTime(made.member, { castingId: castings[at] ?? "" });
  return (screen?.offers.kilns ?? []).flatMap(({ runs }) => runs);
}

async function booked(model: Model, real: Real, at: number, { kilnId, kilnFrom, steamFrom, ...offer }: Offer): Promise<Outcome<{ readonly firingId: string }>> {
  const ask = { castingId: real.castings[at], kilnId, kilnFrom, ...(steamFrom === null ? {} : { steamFrom }), requestKey: randomUUID() };
  const outcome = await bookRun(real.made.member, ask);
  if (outcome.ok) {
    model.runs.set(at, runOf(outcome.value.firingId, { kilnId, kilnFrom, steamFrom, ...offer }));
    real.last = { again: () => bookRun(real.made.member, ask), was: outcome };
  }
  return outcome;
}

type Step = fc.AsyncCommand<Model, Real>;
const step = (name: string, can: (model: Model) => boolean, run: (model: Model, real: Real) => Promise<void>): Step => ({
  check: can,
  run: async (model, real) => {
    await run(model, real);
    await sameAs(model, real);
  },
  toString: () => name,
});

const book = (at: number, nth: number) =>
  step(`book ${at} at offer ${nth}`, ({ runs }) => !runs.has(at), async (model, real) => {
    const offers = await offersFor(real, at);
    const offer = offers[nth % offers.length];
    if (offer === undefined) throw new Error("nothing offered");
    expect(codeOf(await booked(model, real, at, offer))).toBe("ok");
  });

const look = (at: number, nth: number) =>
  step(`look for ${at}, offer ${nth}`, ({ runs }) => !runs.has(at), async (_, real) => {
    const offers = await offersFor(real, at);
    const offer = offers[nth % offers.length];
    if (offer !== undefined) real.kept = { at, offer };
  });

/** What a run holds in the database, and the times of its kiln. */
async function readRun(firingId: string, kiln: string): Promise<Run> {
  const { rows } = await owner.query("SELECT e.name, b.purpose, b.starts_at, b.ends_at FROM booking b JOIN equipment e USING (workshop_id, equipment_id) WHERE b.firing_id = $1 AND b.standing", [firingId]);
  const fired = rows.find((row) => row.purpose === "kiln");
  return { firingId, kiln, from: fired.starts_at.getTime(), to: fired.ends_at.getTime(), parts: rows.map((row) => `${row.name} ${row.purpose} ${row.starts_at.getTime()} ${row.ends_at.getTime()}`) };
}

/** Whether any piece is held twice at a time by what the model knows. */
function clash({ runs }: Model): boolean {
  const spans = [...runs.values()].flatMap(({ parts }) => parts.map((part) => /^(.*) (?:steam-out|load|kiln|unload) (\d+) (\d+)$/.exec(part) ?? []));
  return spans.some(([, name, from, to], i) => spans.some(([, other, start, end], j) => i < j && name === other && Number(from) < Number(end) && Number(start) < Number(to)));
}

/**
 * What was offered a while ago: refused when its kiln was taken since. Else it is steamed, loaded and closed as was
 * offered, or not at all; only its unloading may have found another place.
 */
const bookLate = step("book what was looked for", () => true, async (model, real) => {
  const { kept } = real;
  if (kept === undefined || model.runs.has(kept.at)) return;
  const [from, to] = [Date.parse(kept.offer.kilnFrom), Date.parse(kept.offer.kilnTo)];
  const taken = [...model.runs.values()].some((run) => run.kiln === kept.offer.kilnId && run.from < to && from < run.to);
  const outcome = await booked(model, real, kept.at, kept.offer);
  if (taken) expect(codeOf(outcome)).not.toBe("ok");
  if (!outcome.ok) return;
  const run = await readRun(outcome.value.firingId, kept.offer.kilnId);
  const agreed = (parts: readonly Part[]) => parts.filter((part) => / (steam-out|load) /.test(part)).sort();
  expect([run.from, agreed(run.parts)]).toEqual([from, agreed(partsOf(kept.offer))]);
  model.runs.set(kept.at, run);
  expect(clash(model)).toBe(false);
});

const cancel = (at: number) =>
  step(`cancel ${at}`, ({ runs }) => runs.has(at), async (model, real) => {
    const ask = { firingId: model.runs.get(at)?.firingId, requestKey: randomUUID() };
    const outcome = await cancelRun(real.made.member, ask);
    expect(codeOf(outcome)).toBe("ok");
    model.runs.delete(at);
    real.last = { again: () => cancelRun(real.made.member, ask), was: outcome };
  });

const move = (at: number, nth: number) =>
  step(`move ${at} to offer ${nth}`, ({ runs }) => runs.has(at), async (model, real) => {
    const firingId = model.runs.get(at)?.firingId ?? "";
    const screen = await moveTimes(real.made.member, { firingId });
    const offers: readonly Offer[] = (screen?.offers.kilns ?? []).flatMap(({ runs }) => runs);
    const offer = offers[nth % offers.length];
    if (offer === undefined || screen === null) throw new Error("nothing to move to");
    const { kilnId, kilnFrom, steamFrom } = offer;
    const ask = { firingId, kilnId, kilnFrom, ...(steamFrom === null ? {} : { steamFrom }), version: screen.version, requestKey: randomUUID() };
    const outcome = await moveRun(real.made.member, ask);
    expect(codeOf(outcome)).toBe("ok");
    model.runs.set(at, runOf(firingId, offer));
    real.last = { again: () => moveRun(real.made.member, ask), was: outcome };
  });

const repeat = step("repeat the last request", () => true, async (_, { last }) => {
  if (last !== undefined) expect(await last.again()).toEqual(last.was);
});

const CASTINGS = 3;
const at = fc.nat(CASTINGS - 1);
const nth = fc.nat(5);
const steps = fc.commands(
  [fc.tuple(at, nth).map(([a, n]) => book(a, n)), fc.tuple(at, nth).map(([a, n]) => look(a, n)), fc.constant(bookLate), at.map(cancel), fc.tuple(at, nth).map(([a, n]) => move(a, n)), fc.constant(repeat)],
  { maxCommands: 14 },
);

it("whatever is booked, moved, given back and repeated, in whatever order, the calendar is what a list of runs says it is", async () => {
  await fc.assert(
    fc.asyncProperty(steps, async (commands) => {
      const made = await makeWorkshop(database.ownerUrl);
      const castings: string[] = [];
      for (let i = 0; i < CASTINGS; i++) castings.push(await describedCasting(made.member, `Casting ${i}`));
      await fc.asyncModelRun(() => ({ model: { runs: new Map() }, real: { made, castings, kept: undefined, last: undefined } }), commands);
    }),
    { numRuns: 12, endOnFailure: true },
  );
}, 120_000);
