import { z } from "zod";

export const MIN_POWER_KW = 1;
export const MAX_POWER_KW = 2000;

const range = ({ input }: { readonly input?: unknown }) =>
  `The limit ${input === undefined ? "is missing" : `is ${typeof input === "number" ? input : JSON.stringify(input)}`}; it must be ${MIN_POWER_KW} to ${MAX_POWER_KW} kW, or none.`;

export const setPowerLimitSchema = z.strictObject({
  /** What the electrician allows to heat at the same time; null when no limit was given. */
  kw: z.number({ error: range }).min(MIN_POWER_KW, { error: range }).max(MAX_POWER_KW, { error: range }).nullable(),
});
