import type { Equipment } from "@/lib/domain/booking/equipment";
import type { KilnToPlan } from "@/lib/domain/firing/for-kiln";
import { learnMargin, type FiringRecord, type MarginLesson } from "@/lib/domain/firing/learn-margin";
import type { Tx } from "@/lib/server/db";
import { loadFiringRecords } from "@/lib/server/rows/firing-records";

/** The kilns among the equipment, each with what its own firings say about its margin. */
export async function kilnsToPlan(tx: Tx, equipment: readonly Equipment[]): Promise<readonly KilnToPlan[]> {
  const past = await loadFiringRecords(tx);
  return equipment.flatMap((item) => {
    if (item.kind !== "kiln") return [];
    const own = past.filter(({ kilnId }) => kilnId === item.equipmentId).map(({ record }) => record);
    return [{ ...item, margin: lessonOf(own).margin }];
  });
}

/** @throws when a record cannot be learned from; `loadFiringRecords` gives none of those. */
export function lessonOf(records: readonly FiringRecord[]): MarginLesson {
  const lesson = learnMargin(records);
  if (!lesson.ok) throw new Error(lesson.problems[0].message);
  return lesson.value;
}
