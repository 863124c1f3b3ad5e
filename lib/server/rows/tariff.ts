import type { Band, Tariff } from "@/lib/domain/tariff/tariff";
import type { Weekday } from "@/lib/domain/time/staffed-hours";
import type { Tx } from "@/lib/server/db";

/** The workshop's tariff, its rows put together again as they were typed; null when none is set. */
export async function loadTariff(tx: Tx): Promise<Tariff | null> {
  const row = await tx.tariff.findFirst({ include: { spans: { orderBy: [{ position: "asc" }, { weekday: "asc" }] } } });
  if (row === null) return null;
  const bands = new Map<number, Band>();
  for (const { position, weekday, name, fromMin, toMin, price } of row.spans) {
    const before = bands.get(position)?.weekdays ?? [];
    bands.set(position, { name, fromMin, toMin, price: Number(price), weekdays: [...before, weekday as Weekday] });
  }
  return {
    currency: row.currency,
    scale: row.scale,
    bands: [...bands.values()],
    standingPerDay: row.standingPerDay === null ? null : Number(row.standingPerDay),
  };
}

/** Takes the tariff away, if there is one. */
export async function deleteTariff(tx: Tx): Promise<void> {
  await tx.tariffSpan.deleteMany({});
  await tx.tariff.deleteMany({});
}
