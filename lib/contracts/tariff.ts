import { z } from "zod";
import { MOST_BANDS } from "@/lib/domain/tariff/tariff";
import { clockMinutes } from "./hours";

const WHOLE = { error: "Choose days of the week, 1 (Monday) to 7." };

/** Prices travel as text, so that no float ever stands between what was typed and what is kept. */
const amount = z.string().trim().max(30, "An amount has at most 30 characters.");

const bandSchema = z.strictObject({
  name: z.string().trim().min(1, "Give the band a name, such as Night.").max(40, "A name has at most 40 characters."),
  weekdays: z.array(z.union([1, 2, 3, 4, 5, 6, 7].map((day) => z.literal(day)), WHOLE)).max(7, WHOLE.error),
  from: clockMinutes,
  /** Midnight at the end of the day may be written 24:00 or 00:00. */
  to: clockMinutes.transform((minutes) => (minutes === 0 ? 24 * 60 : minutes)),
  /** Per kWh, in the currency's main unit. */
  price: amount.min(1, "Give the price of a kWh."),
});

export const setTariffSchema = z.strictObject({
  currency: z.string().trim().refine((code) => Intl.supportedValuesOf("currency").includes(code), { error: ({ input }) => `“${String(input)}” is not a currency; write its three capital letters, such as EUR.` }),
  bands: z.array(bandSchema).min(1, "A tariff needs a price; add a band.").max(MOST_BANDS, `A tariff has at most ${MOST_BANDS} bands.`),
  /** A day; empty: none. */
  standingPerDay: amount,
});

export const removeTariffSchema = z.strictObject({ reason: z.string().trim().max(500).optional() });
