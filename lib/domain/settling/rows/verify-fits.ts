import type { EquipmentRow } from "@/lib/domain/settling/rows/settled-rows";
import { at, type Fault, type Moved, type RowsByKey } from "@/lib/domain/settling/rows/moved-run";
import { MS_PER_HOUR } from "@/lib/domain/time/interval";

/** The load fits its kiln, whose owner was shown it, and is held as long as the plan and the cleaning take. */
export function fitFaults(rows: RowsByKey, { firing, bookings, kiln }: Moved): Fault[] {
  const { plan } = firing;
  const piece = rows.piece(kiln.equipmentId);
  if (piece?.kind !== "kiln") return [{ fact: "fits", text: "stands on something that is no kiln" }];
  const faults: Fault[] = [];
  const clearance = 2 * figure(piece, "wallClearanceMm");
  const [width, depth, height] = inside(piece);
  if (!stands(plan.loadMm.width + clearance, plan.loadMm.depth + clearance, width, depth)) faults.push({ fact: "fits", text: `is too wide for ${piece.name}` });
  if (!(plan.loadMm.height + figure(piece, "headroomMm") <= height)) faults.push({ fact: "fits", text: `is too tall for ${piece.name}` });
  if (!(plan.shelfKg <= figure(piece, "shelfLoadKg"))) faults.push({ fact: "fits", text: `is too heavy for the shelf of ${piece.name}` });
  if (!(plan.peakC <= figure(piece, "maxC"))) faults.push({ fact: "fits", text: `needs more heat than ${piece.name} gives` });
  if (piece.shownTo !== null && !piece.shownTo.includes(firing.ownerId)) faults.push({ fact: "fits", text: `is of somebody who was not shown ${piece.name}` });
  const unloads = rows.liftsOf(firing.firingId).filter(({ what }) => what === "unload");
  const unloaded = Math.max(...unloads.map(({ to }) => to), ...bookings.filter(({ purpose }) => purpose === "unload").map(({ to }) => to));
  const opened = Math.min(...unloads.map(({ from }) => from));
  if (!(opened >= kiln.from + plan.reservationHours * MS_PER_HOUR - 1)) faults.push({ fact: "kiln", text: `is unloaded at ${at(rows, opened)}, before its firing is over` });
  if (!(kiln.to >= unloaded + figure(piece, "turnaroundHours") * MS_PER_HOUR - 1)) faults.push({ fact: "kiln", text: `leaves ${piece.name} no time to be made ready after it` });
  return faults;
}

/** A figure that is missing fits nothing. */
export function figure({ limits }: EquipmentRow, name: string): number {
  const value = limits[name];
  return typeof value === "number" ? value : NaN;
}

export function inside({ limits }: EquipmentRow): readonly [number, number, number] {
  const sizes: readonly unknown[] = Array.isArray(limits["insideMm"]) ? limits["insideMm"] : [];
  const [width, depth, height] = [0, 1, 2].map((i) => (typeof sizes[i] === "number" ? sizes[i] : NaN));
  return [width ?? NaN, depth ?? NaN, height ?? NaN];
}

/** One way round or the other. */
export function stands(a: number, b: number, width: number, depth: number): boolean {
  return (a <= width && b <= depth) || (b <= width && a <= depth);
}
