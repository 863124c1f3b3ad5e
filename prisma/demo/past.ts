import type { DemoCasting } from "./castings";

const mould = (wallMm: number, driedBeforeLoading = false) => ({ wallMm, plasterSilicaWater: [1, 1, 1] as const, driedBeforeLoading });
const careful = { cooling: "all-round", stress: "careful" } as const;

/**
 * Firings of the last months, in their order, so that there is something to learn a margin from: Dunlin and Heron
 * often run late, Curlew has been opened once, Plover never. Invented, as everything here.
 */
export const DEMO_PAST: readonly DemoCasting[] = [
  {
    title: "Mussel", owner: "kwame", neededInDays: null, story: { is: "opened", kiln: "Dunlin", inDays: -112 },
    input: { ...careful, glass: "lead-crystal-24", piece: { shape: "ball", sizeMm: [80] }, mould: mould(30), feeder: { diameterMm: 30, lengthMm: 45 } },
  },
  {
    title: "Breakwater", owner: "odile", neededInDays: null, story: { is: "opened", kiln: "Heron", inDays: -104, coolLateHours: 7 },
    input: { ...careful, glass: "soda-lime-casting", piece: { shape: "brick", sizeMm: [300, 160, 95] }, mould: mould(45), feeder: { diameterMm: 40, lengthMm: 60 } },
  },
  {
    title: "Marker stone", owner: "yuki", neededInDays: null, story: { is: "opened", kiln: "Dunlin", inDays: -97, coolLateHours: 8 },
    input: { ...careful, glass: "soda-lime-casting", piece: { shape: "brick", sizeMm: [150, 110, 55] }, mould: mould(35), feeder: { diameterMm: 35, lengthMm: 45 } },
  },
  {
    title: "Groyne", owner: "odile", neededInDays: null, story: { is: "opened", kiln: "Heron", inDays: -78 },
    input: { ...careful, glass: "lead-crystal-30", piece: { shape: "brick", sizeMm: [280, 150, 90] }, mould: mould(45), feeder: { diameterMm: 40, lengthMm: 60 } },
  },
  {
    title: "Low sun", owner: "kwame", neededInDays: null, story: { is: "opened", kiln: "Dunlin", inDays: -76 },
    input: { ...careful, glass: "lead-crystal-45", piece: { shape: "cylinder", sizeMm: [120, 55] }, mould: mould(32), feeder: { diameterMm: 30, lengthMm: 50 } },
  },
  {
    title: "Plover's egg", owner: "yuki", neededInDays: null, story: { is: "opened", kiln: "Dunlin", inDays: -62, coolLateHours: -5 },
    input: { ...careful, glass: "lead-crystal-24", piece: { shape: "ball", sizeMm: [75] }, mould: mould(30, true), feeder: { diameterMm: 30, lengthMm: 45 } },
  },
  {
    title: "Spring tide", owner: "kwame", neededInDays: null, story: { is: "opened", kiln: "Heron", inDays: -50, coolLateHours: 20 },
    input: { ...careful, glass: "soda-lime-casting", piece: { shape: "brick", sizeMm: [340, 180, 100] }, mould: mould(48), feeder: { diameterMm: 45, lengthMm: 60 } },
  },
  {
    title: "Two stones", owner: "odile", neededInDays: null, story: { is: "opened", kiln: "Dunlin", inDays: -48, coolLateHours: 6 },
    input: { ...careful, glass: "soda-lime-float", piece: { shape: "brick", sizeMm: [160, 120, 50] }, mould: mould(35), feeder: { diameterMm: 40, lengthMm: 45 } },
  },
  {
    title: "Salt pan", owner: "yuki", neededInDays: null, story: { is: "opened", kiln: "Curlew", inDays: -40 },
    input: { ...careful, glass: "lead-crystal-30", piece: { shape: "cylinder", sizeMm: [170, 60] }, mould: mould(38), feeder: { diameterMm: 35, lengthMm: 55 } },
  },
  {
    title: "Lee shore", owner: "kwame", neededInDays: null, story: { is: "opened", kiln: "Dunlin", inDays: -33 },
    input: { ...careful, glass: "lead-crystal-45", piece: { shape: "ball", sizeMm: [85] }, mould: mould(32), feeder: { diameterMm: 30, lengthMm: 50 } },
  },
];
