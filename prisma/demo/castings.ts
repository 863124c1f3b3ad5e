import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { DEMO_PEOPLE } from "./workshop";

export type DemoKey = (typeof DEMO_PEOPLE)[number]["key"];

/** What happens to a casting in the demo, counted in days from the day the demo is set up. */
export type DemoStory =
  | { readonly is: "described" }
  | { readonly is: "started" | "planned"; readonly kiln: string; readonly inDays: number }
  /** `coolLateHours`: so much after all that was held for it, it was cool; negative when it was opened that much earlier. */
  | { readonly is: "opened"; readonly kiln: string; readonly inDays: number; readonly coolLateHours?: number }
  | { readonly is: "asked"; readonly kiln: string; readonly inDays: number; readonly note: string };

export type DemoCasting = {
  readonly title: string;
  readonly owner: DemoKey;
  readonly neededInDays: number | null;
  readonly input: CastingInput;
  readonly story: DemoStory;
};

const mould = (wallMm: number, driedBeforeLoading = false) => ({ wallMm, plasterSilicaWater: [1, 1, 1] as const, driedBeforeLoading });
const feeder = (diameterMm: number, lengthMm: number) => ({ diameterMm, lengthMm });

export const DEMO_CASTINGS: readonly DemoCasting[] = [
  {
    title: "Ebb, a half-round", owner: "kwame", neededInDays: null, story: { is: "opened", kiln: "Dunlin", inDays: -14 },
    input: { glass: "lead-crystal-45", piece: { shape: "cylinder", sizeMm: [110, 70] }, cooling: "all-round", mould: mould(32), feeder: feeder(30, 50), stress: "careful" },
  },
  {
    title: "Long shore block", owner: "odile", neededInDays: 40, story: { is: "started", kiln: "Heron", inDays: -6 },
    input: { glass: "soda-lime-casting", piece: { shape: "brick", sizeMm: [360, 170, 110] }, cooling: "all-round", mould: mould(45), feeder: feeder(45, 60), stress: "careful" },
  },
  {
    title: "Reed bowl", owner: "mette", neededInDays: 30, story: { is: "planned", kiln: "Curlew", inDays: 1 },
    input: { glass: "lead-crystal-30", piece: { shape: "cylinder", sizeMm: [190, 80] }, cooling: "all-round", mould: mould(40), feeder: feeder(35, 60), stress: "careful" },
  },
  {
    title: "Kelp stone", owner: "kwame", neededInDays: 25, story: { is: "planned", kiln: "Dunlin", inDays: 2 },
    input: { glass: "soda-lime-casting", piece: { shape: "brick", sizeMm: [210, 160, 65] }, cooling: "all-round", mould: mould(40), feeder: feeder(35, 45), stress: "careful" },
  },
  {
    title: "Seal, resting", owner: "yuki", neededInDays: 50, story: { is: "planned", kiln: "Heron", inDays: 32 },
    input: { glass: "lead-crystal-45", piece: { shape: "brick", sizeMm: [320, 190, 120], waxKg: 4.2 }, cooling: "all-round", mould: mould(48), feeder: feeder(45, 60), stress: "careful" },
  },
  {
    title: "Tide table", owner: "kwame", neededInDays: 60, story: { is: "planned", kiln: "Plover", inDays: 12 },
    input: { glass: "soda-lime-casting", piece: { shape: "slab", sizeMm: [45], waxKg: 2.4 }, cooling: "all-round", mould: mould(38), feeder: feeder(40, 50), stress: "careful" },
  },
  {
    title: "Two pebbles", owner: "odile", neededInDays: 45, story: { is: "planned", kiln: "Dunlin", inDays: 15 },
    input: { glass: "lead-crystal-24", piece: { shape: "ball", sizeMm: [95] }, cooling: "all-round", mould: mould(32, true), feeder: feeder(30, 50), stress: "careful" },
  },
  {
    title: "Lantern foot", owner: "yuki", neededInDays: 70, story: { is: "planned", kiln: "Curlew", inDays: 20 },
    input: { glass: "soda-lime-float", piece: { shape: "cylinder", sizeMm: [160, 110] }, cooling: "all-round", mould: mould(42), feeder: feeder(45, 55), stress: "careful" },
  },
  {
    title: "Open marsh, a relief", owner: "mette", neededInDays: 80, story: { is: "planned", kiln: "Plover", inDays: 46 },
    input: { glass: "soda-lime-casting", piece: { shape: "slab", sizeMm: [35], waxKg: 1.8 }, cooling: "one-face", mould: mould(35), stress: "careful" },
  },
  {
    title: "Buoy", owner: "kwame", neededInDays: 38, story: { is: "asked", kiln: "Curlew", inDays: 20, note: "The harbour opens its hall that week and the plinth is built." },
    input: { glass: "lead-crystal-24", piece: { shape: "ball", sizeMm: [150] }, cooling: "all-round", mould: mould(42), feeder: feeder(40, 60), stress: "careful" },
  },
  {
    title: "Wader", owner: "mette", neededInDays: 55, story: { is: "described" },
    input: { glass: "lead-crystal-45", piece: { shape: "brick", sizeMm: [210, 120, 90], waxKg: 1.9 }, cooling: "all-round", mould: mould(40), feeder: feeder(35, 60), stress: "careful" },
  },
];
