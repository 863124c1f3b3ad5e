import { suffices, type LearnedMargin } from "@/lib/domain/firing/learn-margin";
import { query } from "@/lib/server/query";
import { loadFiringRecords, type KilnRecord } from "@/lib/server/rows/firing-records";
import { lessonOf } from "@/lib/server/rows/kilns-to-plan";

export type PastFiringLine = {
  readonly firingId: string;
  readonly title: string;
  readonly openedMs: number;
  readonly programHours: number;
  /** From its start until it was marked opened. */
  readonly openedAfterHours: number;
  /** What of that counts: without the waiting for people. */
  readonly countedHours: number;
  readonly marginHours: number;
  /** Whether the margin that is used now would have sufficed. */
  readonly sufficed: boolean;
};

export type KilnRecordScreen = {
  /** Null while the usual margin is used. */
  readonly margin: LearnedMargin | null;
  readonly why: string;
  readonly firings: readonly PastFiringLine[];
};

/** A kiln's past firings, planned against actual, latest first, and the margin they teach. */
export const kilnRecordScreen = query({
  name: "kiln-record",
  needs: "manage-equipment",
  run: async ({ tx }, equipmentId: string): Promise<KilnRecordScreen> => {
    const past = await loadFiringRecords(tx, [equipmentId]);
    const { margin, why } = lessonOf(past.map(({ record }) => record));
    return { margin, why, firings: past.map((one) => line(one, margin?.factor ?? 1)) };
  },
});

function line({ firingId, title, openedAt, openedAfterHours, record }: KilnRecord, factor: number): PastFiringLine {
  return {
    firingId,
    title,
    openedMs: openedAt.getTime(),
    programHours: record.programHours,
    openedAfterHours,
    countedHours: record.actualHours,
    marginHours: factor * record.usualMarginHours,
    sufficed: suffices(factor, record),
  };
}
