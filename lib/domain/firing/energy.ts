import type { Stage } from "@/lib/domain/firing/casting-plan";
import { loadCapacity } from "@/lib/domain/firing/loaded-kiln";
import type { LoadMasses } from "@/lib/domain/firing/load-masses";
import type { LoadedKiln } from "@/lib/domain/heat/kiln-heat";
import { ROOM_C, SECONDS_PER_HOUR } from "@/lib/domain/units";

const J_PER_KWH = 3.6e6;
/** Free water with the heat of its steam; bound water leaves gypsum at about 609 kJ per kg of gypsum, which holds 0.209 of its mass (worked out). */
const FREE_WATER_J_PER_KG = 2.6e6;
const BOUND_WATER_J_PER_KG = 0.609e6 / 0.209;

/**
 * Energy from the meter, kWh: loss and heat stage by stage, as far as the elements have to give it
 * (never negative: a cooling kiln gives nothing back), and the water. An ideal kiln only heats its load.
 * Agrees with published meter readings of a small kiln within about a fifth.
 */
export function energyKWh(stages: readonly Stage[], load: LoadMasses, kiln: LoadedKiln | undefined): number {
  const lossWPerK = kiln?.lossWPerK ?? 0;
  const capacity = kiln?.capacityJPerK ?? loadCapacity(load);
  let fromC = ROOM_C;
  let joules = load.mould.freeWaterKg * FREE_WATER_J_PER_KG + load.mould.boundWaterKg * BOUND_WATER_J_PER_KG;
  for (const { stage, toC, hours } of stages) {
    const lost = stage === "Open" ? 0 : lossWPerK * ((fromC + toC) / 2 - ROOM_C) * hours * SECONDS_PER_HOUR;
    joules += Math.max(0, lost + capacity * (toC - fromC));
    fromC = toC;
  }
  return joules / J_PER_KWH;
}
