/**
 * What a mix of plaster, silica and water weighs per litre, wet, dried in air and fired, by absolute
 * volumes. Parts are by weight. Valid for any mix with some plaster and enough water to wet it.
 *
 * Powder of both kinds is taken as 2.65 kg/L (from memory; quartz 2.65, hemihydrate 2.6–2.75). Setting
 * binds 0.186 kg water per kg plaster, and 0.062 came with the hemihydrate: formula masses of
 * CaSO4·½H2O 145.15, H2O 18.015. Above about 180 °C all of it leaves.
 *
 * @example mixOf([1, 1, 1]).slurryKgPerL // 1.71
 */
export type Mix = {
  readonly slurryKgPerL: number;
  readonly powderKgPerL: number;
  readonly plasterKgPerL: number;
  readonly silicaKgPerL: number;
  readonly waterKgPerL: number;
  /** Leaves by drying below 100 °C. */
  readonly freeWaterKgPerL: number;
  /** Leaves in the kiln above 100 °C, down to anhydrite. */
  readonly boundWaterKgPerL: number;
};

const POWDER_KG_PER_L = 2.65;
const HEMIHYDRATE = 145.15;
const WATER = 18.015;
export const SETTING_WATER_PER_PLASTER = (1.5 * WATER) / HEMIHYDRATE;
export const FIRED_WATER_PER_PLASTER = (2 * WATER) / HEMIHYDRATE;

export function mixOf([plaster, silica, water]: readonly [number, number, number]): Mix {
  const volume = (plaster + silica) / POWDER_KG_PER_L + water;
  const perLitre = (parts: number): number => parts / volume;
  return {
    slurryKgPerL: perLitre(plaster + silica + water),
    powderKgPerL: perLitre(plaster + silica),
    plasterKgPerL: perLitre(plaster),
    silicaKgPerL: perLitre(silica),
    waterKgPerL: perLitre(water),
    freeWaterKgPerL: perLitre(water - SETTING_WATER_PER_PLASTER * plaster),
    boundWaterKgPerL: perLitre(FIRED_WATER_PER_PLASTER * plaster),
  };
}
