import { ROOM_C, SECONDS_PER_HOUR } from "@/lib/domain/units";

/**
 * A kiln with its load as one lump: power in, loss proportional to the difference from the room, one
 * heat capacity. Good to about a fifth against metered firings of small brick kilns (published meter
 * readings of 26–29 kWh against 33 worked out); calibrate the loss of each kiln by one metered firing.
 */
export type LoadedKiln = {
  readonly powerW: number;
  readonly lossWPerK: number;
  /** Kiln, furniture, mould, pot and glass, J/K. */
  readonly capacityJPerK: number;
};

/** Share of the rated power that a ramp may count on: elements age, and mains are not always full (common practice). */
const USABLE_POWER = 0.9;

/** The fastest the kiln can climb as it passes a temperature, K/h; negative when it cannot even hold it. */
export function climbRateAt(kiln: LoadedKiln, temperatureC: number): number {
  const spare = USABLE_POWER * kiln.powerW - kiln.lossWPerK * (temperatureC - ROOM_C);
  return (spare / kiln.capacityJPerK) * SECONDS_PER_HOUR;
}

/** The rated power, W, that climbs at a rate in K/h as the kiln passes a temperature: the inverse of `climbRateAt`. */
export function powerForClimb(kiln: LoadedKiln, temperatureC: number, rateKPerH: number): number {
  const needed = (kiln.capacityJPerK * rateKPerH) / SECONDS_PER_HOUR + kiln.lossWPerK * (temperatureC - ROOM_C);
  return needed / USABLE_POWER;
}

/** How fast the closed kiln cools with its power off as it passes a temperature, K/h. */
export function naturalRateAt(kiln: LoadedKiln, temperatureC: number): number {
  return ((kiln.lossWPerK * (temperatureC - ROOM_C)) / kiln.capacityJPerK) * SECONDS_PER_HOUR;
}

/** The temperature, °C, below which the closed kiln cools more slowly than a rate in K/h. */
export function naturalLimitC(kiln: LoadedKiln, rateKPerH: number): number {
  return ROOM_C + ((rateKPerH / SECONDS_PER_HOUR) * kiln.capacityJPerK) / kiln.lossWPerK;
}

/**
 * Hours to cool from one temperature to another (above the room) at no more than a rate in K/h, which
 * may be Infinity: at that rate as long as the kiln loses heat fast enough, at its own pace below.
 */
export function coolingHours(kiln: LoadedKiln, fromC: number, toC: number, rateKPerH: number): number {
  const limitC = Math.min(fromC, Math.max(toC, naturalLimitC(kiln, rateKPerH)));
  const atRate = limitC < fromC ? (fromC - limitC) / rateKPerH : 0;
  const timeConstant = kiln.capacityJPerK / kiln.lossWPerK / SECONDS_PER_HOUR;
  return atRate + (limitC > toC ? timeConstant * Math.log((limitC - ROOM_C) / (toC - ROOM_C)) : 0);
}
