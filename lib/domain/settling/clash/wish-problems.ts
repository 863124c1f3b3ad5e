import { asPlace } from "@/lib/domain/settling/clash/clash-problem";
import type { ClashGround, MovableRun, Pin, Wishes } from "@/lib/domain/settling/clash/clash-ground";
import type { Problem } from "@/lib/domain/refusal";

/** Why pins and forbids cannot all be kept: one sentence each, naming the run and the equipment. Days are said by `sayDay`. */
export function wishProblems(ground: ClashGround, { pins, forbids }: Wishes, sayDay: (day: number) => string): Problem[] {
  const runs = new Map(ground.runs.map((run) => [run.runId, run]));
  const unknown = [...pins, ...forbids].filter(({ runId }) => !runs.has(runId)).map(({ runId }) => `There is no run ${runId} that may be placed or moved.`);
  if (unknown.length > 0) return unknown.map(asProblem);
  const held = pins.map((pin) => asPlace(pin, runs.get(pin.runId) as MovableRun));
  const sentences = [
    ...held.flatMap((pin) => againstFacts(ground, runs.get(pin.runId) as MovableRun, pin, sayDay)),
    ...againstThemselves(ground, held, runs, sayDay),
    ...held.flatMap((pin) => againstForbids(ground, runs.get(pin.runId) as MovableRun, pin, { pins, forbids }, sayDay)),
    ...againstEachOther(ground, held, runs, sayDay),
  ];
  return sentences.map(asProblem);
}

function asProblem(message: string): Problem {
  return { code: "wish", message };
}

/** Why a run cannot be where a pin says, whatever the others do. */
export function againstFacts(ground: ClashGround, run: MovableRun, { kilnId, day }: Pin, sayDay: (day: number) => string): string[] {
  const kiln = kilnId === undefined ? undefined : ground.kilns.find((one) => one.kilnId === kilnId);
  if (kilnId !== undefined && kiln === undefined) return [`${run.title} cannot be held on ${kilnId}: there is no such kiln.`];
  const days = kilnId === undefined ? undefined : run.daysByKiln[kilnId];
  if (kiln !== undefined && !((days ?? 0) > 0)) return [`${run.title} cannot be held on ${kiln.name}: it does not fit.`];
  if (day === undefined) return [];
  const held = `${run.title} cannot be held on ${sayDay(day)}`;
  if (!((ground.handsOn[day] ?? 0) >= run.hands)) return [`${held}: it takes ${run.hands} to load and ${ground.handsOn[day] ?? 0} are on duty.`];
  if (day < run.earliest) return [`${held}: it can be loaded from ${sayDay(run.earliest)} on.`];
  if (run.latest !== null && day > run.latest) return [`${held}: its mould waits until ${sayDay(run.latest)} and no longer.`];
  const stretch = ground.taken.find((one) => one.kilnId === kilnId && one.from < day + (days ?? 0) && day < one.to);
  return stretch === undefined || kiln === undefined ? [] : [`${held} on ${kiln.name}: ${stretch.holder} has it from ${sayDay(stretch.from)} until ${sayDay(stretch.to)}.`];
}

function againstThemselves({ kilns }: ClashGround, held: readonly Pin[], runs: ReadonlyMap<string, MovableRun>, sayDay: (day: number) => string): string[] {
  return held.flatMap((pin, i) => {
    const other = held.slice(i + 1).find((one) => one.runId === pin.runId && (differ(one.kilnId, pin.kilnId) || differ(one.day, pin.day)));
    const place = ({ kilnId, day }: Pin): string =>
      [kilnId === undefined ? [] : [`on ${kilns.find((kiln) => kiln.kilnId === kilnId)?.name ?? kilnId}`], day === undefined ? [] : [`on ${sayDay(day)}`]].flat().join(" ");
    return other === undefined ? [] : [`${runs.get(pin.runId)?.title} is held in two places at once: ${place(pin)}, and ${place(other)}.`];
  });
}

function differ<T>(a: T | undefined, b: T | undefined): boolean {
  return a !== undefined && b !== undefined && a !== b;
}

function againstForbids(ground: ClashGround, run: MovableRun, { kilnId, day }: Pin, { forbids }: Wishes, sayDay: (day: number) => string): string[] {
  return forbids.flatMap((forbid) => {
    if (forbid.runId !== run.runId) return [];
    const sameKiln = forbid.kilnId === undefined || forbid.kilnId === kilnId;
    const everyDay = forbid.from === undefined && forbid.to === undefined;
    const sameDay = everyDay || (day !== undefined && day >= (forbid.from ?? 0) && day < (forbid.to ?? Infinity));
    if (!sameKiln || !sameDay) return [];
    const where = [kilnId === undefined ? [] : [`on ${ground.kilns.find((one) => one.kilnId === kilnId)?.name}`], day === undefined ? [] : [`on ${sayDay(day)}`]].flat().join(" ");
    return [`${run.title} is held ${where} and forbidden there.`];
  });
}

/** Two held runs on one kiln at the same time. */
function againstEachOther(ground: ClashGround, held: readonly Pin[], runs: ReadonlyMap<string, MovableRun>, sayDay: (day: number) => string): string[] {
  const placed = held.filter((pin): pin is Required<Pin> => pin.kilnId !== undefined && pin.day !== undefined);
  return placed.flatMap((pin, i) =>
    placed.slice(i + 1).flatMap((other) => {
      if (other.kilnId !== pin.kilnId || other.runId === pin.runId) return [];
      const days = (one: Required<Pin>): number => runs.get(one.runId)?.daysByKiln[one.kilnId] ?? 0;
      if (pin.day + days(pin) <= other.day || other.day + days(other) <= pin.day) return [];
      const name = ground.kilns.find((one) => one.kilnId === pin.kilnId)?.name ?? pin.kilnId;
      return [`${runs.get(pin.runId)?.title} from ${sayDay(pin.day)} and ${runs.get(other.runId)?.title} from ${sayDay(other.day)} are both held on ${name}.`];
    }),
  );
}
