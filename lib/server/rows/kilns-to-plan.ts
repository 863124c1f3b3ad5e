import type { Equipment } from "@/lib/domain/booking/equipment";
import type { KilnToPlan } from "@/lib/domain/firing/for-kiln";
import { learnMargin, type FiringRecord, type LearnedMargin, type MarginLesson } from "@/lib/domain/firing/learn-margin";
import { loadFiringRecords } from "@/lib/server/rows/firing-records";
import { modelsOf, type Statements } from "@/lib/server/statements";

/** What is kept of a kiln's record is good for as long as the database's count of its news stays (0007_runs). */
type Kept = { readonly version: number; readonly margin: LearnedMargin | null };
const MOST_KEPT = 5000;
const kept = new Map<string, Kept>();

/**
 * The kilns among the equipment, each with what its own firings say about its margin.
 * @param versions the count of each kiln's news, where it was read already
 */
export async function kilnsToPlan(tx: Statements, equipment: readonly Equipment[], versions?: ReadonlyMap<string, number>): Promise<readonly KilnToPlan[]> {
  const kilns = equipment.filter((item) => item.kind === "kiln");
  const margins = await marginsOf(tx, kilns.map((kiln) => kiln.equipmentId), versions);
  return kilns.map((kiln) => ({ ...kiln, margin: margins.get(kiln.equipmentId) ?? null }));
}

/** The count is read before the records, so that what is kept under it is at least as new. */
async function marginsOf(tx: Statements, kilnIds: readonly string[], versions?: ReadonlyMap<string, number>): Promise<ReadonlyMap<string, LearnedMargin | null>> {
  const counts = versions ?? (await countsOf(tx, kilnIds));
  const news = kilnIds.filter((kilnId) => kept.get(kilnId)?.version !== counts.get(kilnId));
  const past = news.length === 0 ? [] : await loadFiringRecords(tx, news);
  for (const kilnId of news) {
    const own = past.filter((one) => one.kilnId === kilnId).map(({ record }) => record);
    keep(kilnId, { version: counts.get(kilnId) ?? 0, margin: lessonOf(own).margin });
  }
  return new Map(kilnIds.map((kilnId) => [kilnId, kept.get(kilnId)?.margin ?? null]));
}

async function countsOf(tx: Statements, kilnIds: readonly string[]): Promise<ReadonlyMap<string, number>> {
  const rows = await modelsOf(tx).equipment.findMany({ where: { equipmentId: { in: [...kilnIds] } }, select: { equipmentId: true, recordVersion: true } });
  return new Map(rows.map((row) => [row.equipmentId, row.recordVersion]));
}

function keep(kilnId: string, one: Kept): void {
  if (kept.size >= MOST_KEPT && !kept.has(kilnId)) kept.clear();
  kept.set(kilnId, one);
}

/** @throws when a record cannot be learned from; `loadFiringRecords` gives none of those. */
export function lessonOf(records: readonly FiringRecord[]): MarginLesson {
  const lesson = learnMargin(records);
  if (!lesson.ok) throw new Error(lesson.problems[0].message);
  return lesson.value;
}
