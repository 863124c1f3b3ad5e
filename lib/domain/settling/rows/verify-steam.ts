import type { MouldFigures } from "@/lib/domain/settling/rows/settled-rows";
import { figure, inside, stands } from "@/lib/domain/settling/rows/verify-fits";
import { at, type Fault, type Moved, type RowsByKey } from "@/lib/domain/settling/rows/moved-run";
import { MS_PER_DAY, MS_PER_HOUR } from "@/lib/domain/time/interval";

/** Common practice, no source: a mould drains this long at least, and waits no longer than this for its kiln. */
const DRAINS_HOURS = 2;
const WAITS_DAYS = 21;

/** Every mould with wax is steamed out long enough, in a steamer that takes it, dry before its loading and not too long before. */
export function steamFaults(rows: RowsByKey, moved: Moved): Fault[] {
  return moved.firing.plan.moulds.filter(({ steamHours }) => steamHours > 0).flatMap((mould) => ofMould(rows, moved, mould));
}

function ofMould(rows: RowsByKey, { move, firing, bookings, kiln }: Moved, mould: MouldFigures): Fault[] {
  const isOne = firing.plan.moulds.length === 1;
  const steam = bookings.find(({ purpose, castingId }) => purpose === "steam-out" && (castingId === mould.castingId || (castingId === null && isOne)));
  if (steam === undefined) return [{ fact: "steamer", text: "is not steamed out" }];
  const loads = rows.liftsOf(firing.firingId).filter(({ what, castingId }) => what === "load" && castingId === mould.castingId);
  const load = Math.min(...loads.map(({ from }) => from));
  const driesHours = mould.dried ? Math.max(DRAINS_HOURS, 24 * mould.airDaysFrom) : DRAINS_HOURS;
  const faults: Fault[] = [];
  if (!(steam.to + driesHours * MS_PER_HOUR <= load)) faults.push({ fact: "steamer", text: `is loaded at ${at(rows, load)}, before its mould is dry` });
  const begun = steam.from <= rows.acceptedAt;
  // What was steamed already may stand as late as it stood; whole days, as it waits overnight in any case.
  const longest = begun ? Math.max(steam.to + (WAITS_DAYS + 1) * MS_PER_DAY, (move.before?.kilnFrom ?? 0) + MS_PER_DAY) : steam.from + WAITS_DAYS * MS_PER_DAY;
  if (!((begun ? kiln.from : load) <= longest)) faults.push({ fact: "steamer", text: `is steamed out at ${at(rows, steam.from)}, more than ${WAITS_DAYS} days before its loading` });
  if (begun) return faults;
  if (!(steam.to - steam.from >= mould.steamHours * MS_PER_HOUR - 1)) faults.push({ fact: "steamer", text: "is not steamed out for as long as its mould needs" });
  const steamer = rows.piece(steam.equipmentId);
  const [width, depth, height] = mould.outsideMm;
  const [wide, deep, tall] = steamer === undefined ? [NaN, NaN, NaN] : inside(steamer);
  const takes = steamer?.kind === "steamer" && stands(width, depth, wide, deep) && height <= tall && mould.investedKg <= figure(steamer, "maxMouldKg");
  if (!takes) faults.push({ fact: "steamer", text: `has a mould that ${steamer?.name ?? "its steamer"} does not take` });
  return faults;
}
