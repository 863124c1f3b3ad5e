import { ok, refusalOf, type Outcome, type Problem } from "@/lib/domain/refusal";
import { isCurrencyCode } from "./currency";
import { MINUTES_PER_DAY, MINUTES_PER_WEEK, MOST_BANDS, MOST_PRICE, MOST_SCALE, weekOf, type Band, type Tariff, type WeekSpan } from "./tariff";
import { clockOfMinutes, weekStretch } from "./week-words";

/**
 * A tariff that prices every minute of the week exactly once, or everything that is wrong with it:
 * bands that overlap, hours without a price, prices that are negative or no whole number of the unit,
 * one name at two prices.
 */
export function checkTariff(tariff: Tariff): Outcome<Tariff> {
  const own = [...headProblems(tariff), ...tariff.bands.flatMap(bandProblems), ...nameProblems(tariff.bands)];
  return refusalOf(own.length > 0 ? own : weekProblems(tariff.bands)) ?? ok(tariff);
}

function headProblems({ currency, scale, bands, standingPerDay }: Tariff): Problem[] {
  const problems: Problem[] = [];
  if (!isCurrencyCode(currency)) problems.push({ code: "unknown-currency", field: "currency", value: currency, allowed: "three capital letters such as EUR", message: `"${currency}" is not a currency; write its three letters, such as EUR.` });
  if (!(Number.isInteger(scale) && scale >= 0 && scale <= MOST_SCALE)) problems.push({ code: "out-of-range", field: "scale", value: scale, allowed: `0 to ${MOST_SCALE}`, message: `A price is kept with up to ${MOST_SCALE} decimals below the smallest coin; ${scale} were given.` });
  if (!(bands.length >= 1 && bands.length <= MOST_BANDS)) problems.push({ code: "out-of-range", field: "bands", value: bands.length, allowed: `1 to ${MOST_BANDS} bands`, message: `A tariff has 1 to ${MOST_BANDS} bands; ${bands.length} were given.` });
  if (standingPerDay !== null) problems.push(...priceProblem("standingPerDay", "The standing charge", standingPerDay));
  return problems;
}

function bandProblems(band: Band, at: number): Problem[] {
  const field = `bands.${at}`;
  const problems = priceProblem(`${field}.price`, `The price of ${band.name}`, band.price);
  if (band.name.trim() === "") problems.push({ code: "missing", field: `${field}.name`, message: "A band needs a name, such as Night." });
  if (band.weekdays.length === 0) problems.push({ code: "missing", field: `${field}.weekdays`, allowed: "one day or more", message: `${band.name} is on no day; tick the days it holds on.` });
  const within = Number.isInteger(band.fromMin) && Number.isInteger(band.toMin) && band.fromMin >= 0 && band.toMin > band.fromMin && band.toMin <= MINUTES_PER_DAY;
  if (!within) {
    problems.push({ code: "ends-before-start", field: `${field}.to`, value: band.toMin, allowed: "later than its start, up to 24:00", message: `${band.name} from ${clockOfMinutes(band.fromMin)} to ${clockOfMinutes(band.toMin)} must end after it starts and no later than 24:00; write a night as two bands, to 24:00 and from 00:00.` });
  }
  return problems;
}

function priceProblem(field: string, label: string, price: number): Problem[] {
  if (Number.isSafeInteger(price) && price >= 0 && price <= MOST_PRICE) return [];
  return [{ code: "out-of-range", field, value: price, allowed: "0 or more", message: `${label} must be 0 or more, and no larger than any tariff is.` }];
}

/** Costs are added up by name, so one name has one price. */
function nameProblems(bands: readonly Band[]): Problem[] {
  return bands.flatMap((band, at) => {
    const first = bands.find(({ name }) => name === band.name);
    if (first === undefined || Object.is(first.price, band.price)) return [];
    return [{ code: "two-prices", field: `bands.${at}.price`, value: band.price, message: `${band.name} has two prices; give the dearer hours a name of their own.` }];
  });
}

function weekProblems(bands: readonly Band[]): Problem[] {
  const problems: Problem[] = [];
  let pricedTo = 0;
  let last: WeekSpan | undefined;
  for (const span of [...weekOf(bands), undefined]) {
    const fromMin = span?.fromMin ?? MINUTES_PER_WEEK;
    if (fromMin > pricedTo) problems.push(gap(pricedTo, fromMin));
    if (span !== undefined && last !== undefined && fromMin < pricedTo) problems.push(overlap(bands, last, span, pricedTo));
    if (span !== undefined && span.toMin > pricedTo) {
      pricedTo = span.toMin;
      last = span;
    }
  }
  return problems;
}

function gap(fromMin: number, toMin: number): Problem {
  const stretch = weekStretch(fromMin, toMin);
  return { code: "gap", field: "bands", value: stretch, allowed: "a price for every hour of the week", message: `${stretch} has no price; every hour of the week needs one.` };
}

function overlap(bands: readonly Band[], a: WeekSpan, b: WeekSpan, pricedTo: number): Problem {
  const stretch = weekStretch(b.fromMin, Math.min(pricedTo, b.toMin));
  return { code: "bands-overlap", field: `bands.${bands.indexOf(b.band)}.from`, value: stretch, allowed: "one price for every hour", message: `${stretch} has two prices, ${a.band.name} and ${b.band.name}; let them only touch.` };
}
