import type { CatalogueGlassId } from "@/lib/domain/firing/casting-input";
import type { Glass } from "./glass";
import { FLOAT_RELAXATION, relaxationMovedTo } from "./relaxation";

/*
 * Six generic glasses. These are planning figures: a maker's sheet for the glass in hand always wins.
 * Marks beside the numbers: a publication by name; "from memory" with how sure (high, medium, low);
 * "worked out" from figures beside it. Viscosity is valid from the strain point to about 10^2 Pa·s,
 * expansion from 20 to 300 °C (solid) and above the transition (liquid), conductivity and heat capacity
 * from 20 to 900 °C.
 */

/** Float set of Aronen & Karvinen (2018): 9.0e-6 below and 32e-6 per K above the transition. */
const SODA_LIME_LIQUID_PER_K = 32e-6;

/** Lead crystals: liquid expansion 2.5 times the solid one (from memory, low; 2.5 to 3 are quoted). */
const LEAD_LIQUID_RATIO = 2.5;

/** Activation enthalpy over R: 45 000 to 60 000 K for lead silicates (from memory, low). */
const LEAD_ACTIVATION_K = 55_000;

/**
 * Fitted through softening 685, annealing 514 and working point 1013 °C of a soft soda-lime tube glass
 * (W. Strattman, Neon Techniques, Table 3.6), the nearest published to casting soda-lime of expansion 9.
 */
const SODA_LIME_CASTING = { A: -1.794, B: 3666.6, T0C: 248.2 };

/** Fitted through the measured points of DGG standard glass I, 1301 / 721 / 539 °C (Fluegel 2007, Table 12). */
const SODA_LIME_FLOAT = { A: -2.922, B: 4789, T0C: 218.1 };

/** Fluegel, Glass Technology 48 (2007) 13, composition model: 60 SiO2, 24 PbO, 9 K2O, 5.5 Na2O, 1.5 ZnO wt%; worked out. */
const LEAD_24 = { A: -2.495, B: 4542, T0C: 134.9 };

/** The same model: 55.5 SiO2, 30 PbO, 12 K2O, 1.5 Na2O, 1 ZnO wt%; worked out. */
const LEAD_30 = { A: -2.592, B: 4555, T0C: 149.2 };

/** Fitted through the measured points of NIST SRM 711 (45 wt% PbO), 1185 / 614 / 443 °C (Fluegel 2007, Table 12). */
const LEAD_45 = { A: -2.641, B: 4284, T0C: 150.4 };

/** Fitted through working 1252, softening 821, annealing 560 °C of borosilicate 3.3 (ISO 3585 type; from memory, high). */
const BOROSILICATE = { A: -3.093, B: 7071, T0C: 91.5 };

const RECORDS: Readonly<Record<CatalogueGlassId, Glass>> = {
  "soda-lime-casting": {
    id: "soda-lime-casting",
    name: "Soda-lime casting glass",
    densityKgM3: 2500, // fusing and casting soda-lime, trade figure; 2500 to 2530 published for float
    viscosity: SODA_LIME_CASTING,
    expansionSolidPerK: 9.0e-6, // 0–300 °C, makers' sheets for casting glass of expansion 90
    expansionLiquidPerK: SODA_LIME_LIQUID_PER_K,
    youngGPa: 70, // Aronen & Karvinen 2018
    poisson: 0.22, // Aronen & Karvinen 2018
    conductivityWPerMK: [0.741, 8.58e-4], // form from memory, high; used in tempering papers
    heatCapacity: { kind: "curve", scale: 1 },
    stressOpticBrewster: 2.7, // float 2.6–2.7, from memory, high
    relaxation: relaxationMovedTo(SODA_LIME_CASTING, FLOAT_RELAXATION.activationK),
  },
  "soda-lime-float": {
    id: "soda-lime-float",
    name: "Soda-lime float glass",
    densityKgM3: 2500, // 2500–2530, tempering papers
    viscosity: SODA_LIME_FLOAT,
    expansionSolidPerK: 9.0e-6, // Aronen & Karvinen 2018; makers of float quote 8.3–8.7e-6
    expansionLiquidPerK: SODA_LIME_LIQUID_PER_K,
    youngGPa: 70,
    poisson: 0.22,
    conductivityWPerMK: [0.741, 8.58e-4],
    heatCapacity: { kind: "curve", scale: 1 },
    stressOpticBrewster: 2.65,
    relaxation: FLOAT_RELAXATION,
  },
  "lead-crystal-24": {
    id: "lead-crystal-24",
    name: "Lead crystal, 24 % lead oxide",
    densityKgM3: 2900, // 2900–3100, from memory, medium
    viscosity: LEAD_24,
    expansionSolidPerK: 9.2e-6, // lead tube glass of about 22 % PbO (Strattman, Neon Techniques)
    expansionLiquidPerK: LEAD_LIQUID_RATIO * 9.2e-6,
    youngGPa: 62, // from memory, medium
    poisson: 0.21, // from memory, medium
    conductivityWPerMK: [0.9, 3.4e-4], // from memory, low
    heatCapacity: { kind: "curve", scale: 0.84 }, // about 670 J/kgK at 20 °C, from memory, low
    stressOpticBrewster: 2.9, // 2.8–3.0, from memory, medium
    relaxation: relaxationMovedTo(LEAD_24, LEAD_ACTIVATION_K),
  },
  "lead-crystal-30": {
    id: "lead-crystal-30",
    name: "Lead crystal, 30 % lead oxide",
    densityKgM3: 2990, // between optical glass LLF1 2940 (SCHOTT data) and a 29 % tube glass 3050
    viscosity: LEAD_30,
    expansionSolidPerK: 9.2e-6, // optical glass LLF1 (SCHOTT data)
    expansionLiquidPerK: LEAD_LIQUID_RATIO * 9.2e-6,
    youngGPa: 60, // from memory, medium
    poisson: 0.21, // from memory, medium
    conductivityWPerMK: [0.86, 3.4e-4], // 0.96 at 20 °C, from memory, low
    heatCapacity: { kind: "curve", scale: 0.81 }, // 650 J/kgK at 20 °C, from memory, low
    stressOpticBrewster: 3.0, // 2.8–3.05, from memory, medium
    relaxation: relaxationMovedTo(LEAD_30, LEAD_ACTIVATION_K),
  },
  "lead-crystal-45": {
    id: "lead-crystal-45",
    name: "Lead crystal, 45 % lead oxide",
    densityKgM3: 3600, // optical glass F2 3599 (SCHOTT data); casting crystals of this kind 3500–3700
    viscosity: LEAD_45,
    expansionSolidPerK: 9.2e-6, // F2, 20–300 °C (SCHOTT data); casting crystals 9.2–9.6e-6
    expansionLiquidPerK: LEAD_LIQUID_RATIO * 9.2e-6,
    youngGPa: 57, // F2, from memory, high
    poisson: 0.22, // F2, from memory, high
    conductivityWPerMK: [0.651, 4.4e-4], // F2 0.78 at 20 °C, high; about 0.95 at 430 °C, low
    heatCapacity: { kind: "curve", scale: 0.695 }, // F2 557 J/kgK at 20 °C, from memory, high
    stressOpticBrewster: 2.81, // F2, from memory, high
    relaxation: relaxationMovedTo(LEAD_45, LEAD_ACTIVATION_K),
  },
  "borosilicate-33": {
    id: "borosilicate-33",
    name: "Borosilicate 3.3",
    densityKgM3: 2230, // ISO 3585 type, from memory, high
    viscosity: BOROSILICATE,
    expansionSolidPerK: 3.3e-6, // ISO 3585
    expansionLiquidPerK: 9.9e-6, // three times the solid figure, from memory, low
    youngGPa: 64, // from memory, high
    poisson: 0.2, // from memory, high
    conductivityWPerMK: [0.924, 6e-4], // 1.1 at 20 °C, high; slope low
    heatCapacity: { kind: "curve", scale: 1.03 }, // 830 J/kgK at 20 °C, from memory, medium
    stressOpticBrewster: 4.0, // from memory, medium
    relaxation: relaxationMovedTo(BOROSILICATE, FLOAT_RELAXATION.activationK),
  },
};

export const CATALOGUE: readonly Glass[] = Object.values(RECORDS);

export function catalogueGlass(id: CatalogueGlassId): Glass {
  return RECORDS[id];
}
