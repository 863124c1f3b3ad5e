import { NO_STEPS, type SpanList, type StepList } from "@/lib/domain/booking/taken-calendar";

/** Instants one after another, eight bytes each, as the database keeps them; null when there are none. */
export type Packed = Uint8Array | null;

/** The spans of several pieces of equipment, whose names stand one after another in the same order. */
export function spansByName({ names, starts, ends }: { readonly names: string | null; readonly starts: Packed; readonly ends: Packed }): Map<string, SpanList> {
  const [from, to] = [instants(starts), instants(ends)];
  const of = new Map<string, { readonly starts: number[]; readonly ends: number[] }>();
  for (const [i, name] of (names === null ? [] : names.split(" ")).entries()) {
    const own = of.get(name) ?? { starts: [], ends: [] };
    of.set(name, own);
    own.starts.push(from[i] ?? NaN);
    own.ends.push(to[i] ?? NaN);
  }
  return new Map(Array.from(of, ([name, own]) => [name, { starts: Float64Array.from(own.starts), ends: Float64Array.from(own.ends) }]));
}

export function spansOf({ starts, ends }: { readonly starts: Packed; readonly ends: Packed }): SpanList {
  return { starts: instants(starts), ends: instants(ends) };
}

type KindRow = { readonly is: string; readonly starts: Packed; readonly ends: Packed; readonly amounts: Packed };

export function stepsOfKind(rows: readonly KindRow[], is: "lifts" | "heating"): StepList {
  const row = rows.find((one) => one.is === is);
  return row === undefined ? NO_STEPS : stepsOfRow(row, is);
}

export function stepsOfRow(row: Omit<KindRow, "is">, is: "lifts" | "heating"): StepList {
  if (row.amounts === null) return NO_STEPS;
  return { starts: instants(row.starts), ends: instants(row.ends), amounts: is === "lifts" ? smallNumbers(row.amounts) : numbers(row.amounts) };
}

/** Midnight of 1 January 2000 UTC, from which PostgreSQL counts microseconds (its documentation, "Date/Time Types"). */
const POSTGRES_EPOCH_MS = Date.UTC(2000, 0, 1);

/** Read to the millisecond, as everywhere; two halves, because the whole would be a big integer. */
function instants(packed: Packed): Float64Array {
  if (packed === null) return new Float64Array(0);
  const view = viewOf(packed);
  const read = new Float64Array(packed.byteLength / 8);
  for (let i = 0; i < read.length; i++) {
    const microseconds = view.getInt32(8 * i) * 2 ** 32 + view.getUint32(8 * i + 4);
    read[i] = POSTGRES_EPOCH_MS + Math.floor(microseconds / 1000);
  }
  return read;
}

function numbers(packed: Uint8Array): Float64Array {
  const view = viewOf(packed);
  return Float64Array.from({ length: packed.byteLength / 8 }, (_, i) => view.getFloat64(8 * i));
}

function smallNumbers(packed: Uint8Array): Float64Array {
  const view = viewOf(packed);
  return Float64Array.from({ length: packed.byteLength / 2 }, (_, i) => view.getInt16(2 * i));
}

function viewOf({ buffer, byteOffset, byteLength }: Uint8Array): DataView {
  return new DataView(buffer, byteOffset, byteLength);
}
