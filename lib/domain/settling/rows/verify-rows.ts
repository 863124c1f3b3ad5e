import type { FiringRow, Objection, SaidMove, SettledRows } from "@/lib/domain/settling/rows/settled-rows";
import { at, byKey, nameOf, type Fault, type Moved, type RowsByKey } from "@/lib/domain/settling/rows/moved-run";
import { fitFaults } from "@/lib/domain/settling/rows/verify-fits";
import { liftFaults } from "@/lib/domain/settling/rows/verify-lifts";
import { placeFaults } from "@/lib/domain/settling/rows/verify-places";
import { steamFaults } from "@/lib/domain/settling/rows/verify-steam";

/**
 * Checks an accepted settlement from the rows it left, sharing nothing with what searched for it and what placed it:
 * every run stands where the settlement says, whole; nothing that has started and nothing else has moved; kilns are
 * held once; loads fit; lifts are staffed, with hands and a trolley; steam-outs lie within their drying window; power,
 * outages and inspections; castings that share a firing are together. Only what moved is looked at, against all that
 * stands. An empty list means that it holds.
 */
export function verifyRows(rows: SettledRows): readonly Objection[] {
  const found = byKey(rows);
  const firings = new Map(rows.firings.map((firing) => [firing.firingId, firing]));
  const others = rows.alsoWritten.map(({ title, status }): Objection => {
    const what = status === "started" || status === "opened" ? `has ${status} and must not move` : "is no part of this settlement";
    return { fact: "started", firingId: null, sentence: `${title} ${what}, and its places were changed.` };
  });
  return [...others, ...rows.moves.flatMap((move) => faultsOf(found, firings.get(move.firingId), move))];
}

function faultsOf(rows: RowsByKey, firing: FiringRow | undefined, move: SaidMove): readonly Objection[] {
  const { firingId } = move;
  if (firing === undefined) return [{ fact: "whole", firingId, sentence: "A run of this settlement is not there." }];
  const objections = (faults: readonly Fault[]): Objection[] => faults.map(({ fact, text }) => ({ fact, firingId, sentence: `${firing.title} ${text}.` }));
  const bookings = rows.bookingsOf(firingId);
  const kiln = bookings.find(({ purpose }) => purpose === "kiln");
  if (kiln === undefined) return objections([{ fact: "whole", text: "holds no kiln" }]);
  const moved = { move, firing, bookings, kiln };
  return objections([...standFaults(rows, moved), ...fitFaults(rows, moved), ...liftFaults(rows, moved), ...steamFaults(rows, moved), ...placeFaults(rows, moved)]);
}

/** Whole, not started, together, and where the settlement says. */
function standFaults(rows: RowsByKey, { move, firing, bookings, kiln }: Moved): Fault[] {
  const faults: Fault[] = [];
  const held = bookings.map(({ purpose }) => purpose).sort();
  if (firing.status !== "planned") faults.push({ fact: "started", text: `is ${firing.status} and not planned, so it must not move` });
  if (kiln.equipmentId !== move.kilnId || kiln.from !== move.kilnFrom || kiln.to !== move.kilnTo) {
    faults.push({ fact: "as-said", text: `stands on ${nameOf(rows, kiln.equipmentId)} from ${at(rows, kiln.from)}, and the settlement says ${nameOf(rows, move.kilnId)} from ${at(rows, move.kilnFrom)}` });
  }
  if (held.join() !== [...firing.purposes].sort().join()) faults.push({ fact: "whole", text: `needs ${firing.purposes.join(", ")} and holds ${held.join(", ")}` });
  if (move.before === null && firing.openAsks > 0) faults.push({ fact: "whole", text: "is booked, and its ask still waits" });
  const [planned, standing] = [firing.plan.moulds.map(({ castingId }) => castingId).sort(), [...firing.castingIds].sort()];
  if (planned.join() !== standing.join()) faults.push({ fact: "together", text: `is planned for ${countOf(planned)} and ${countOf(standing)} ${standing.length === 1 ? "stands" : "stand"} in it, or others` });
  return faults;
}

function countOf({ length }: readonly unknown[]): string {
  return length === 1 ? "one casting" : `${length} castings`;
}
