import type { EquipmentInput } from "@/lib/contracts/equipment";
import type { Role } from "@/lib/domain/access/roles";

/** An invented workshop by an invented marsh. Nobody and nothing here is real. */
export const DEMO_WORKSHOP = { name: "Saltmarsh Glass Sheds", timeZone: "Europe/Copenhagen", powerLimitKw: 34 } as const;

export type DemoPerson = { readonly key: string; readonly name: string; readonly email: string; readonly roles: readonly Role[] };

export const DEMO_PEOPLE = [
  { key: "mette", name: "Mette Rask", email: "mette@saltmarsh.example", roles: ["member"] },
  { key: "ingrid", name: "Ingrid Sandal", email: "ingrid@saltmarsh.example", roles: ["manager"] },
  { key: "tomasz", name: "Tomasz Wilk", email: "tomasz@saltmarsh.example", roles: ["assistant"] },
  { key: "odile", name: "Odile Fournier", email: "odile@saltmarsh.example", roles: ["member"] },
  { key: "kwame", name: "Kwame Asante", email: "kwame@saltmarsh.example", roles: ["member"] },
  { key: "yuki", name: "Yuki Tanabe", email: "yuki@saltmarsh.example", roles: ["member", "assistant"] },
] as const satisfies readonly DemoPerson[];

const kiln = (name: string, inside: readonly [number, number, number], powerKw: number, lossWPerK: number, heatCapacityKJPerK: number, shelfLoadKg: number): EquipmentInput => ({
  kind: "kiln",
  name,
  limits: {
    insideMm: [...inside], wallClearanceMm: 40, headroomMm: 50, shelfLoadKg, powerKw, lossWPerK, heatCapacityKJPerK,
    maxC: 950, controllerSegments: 64, minRateKPerH: 0.5, turnaroundHours: 2,
  },
});

export const DEMO_EQUIPMENT: readonly EquipmentInput[] = [
  kiln("Heron", [800, 700, 620], 15, 7.6, 85, 220),
  kiln("Curlew", [600, 600, 600], 10.5, 5.2, 48, 140),
  kiln("Plover", [500, 500, 520], 8, 4.1, 34, 90),
  kiln("Dunlin", [400, 400, 480], 6, 2.9, 22, 60),
  { kind: "steamer", name: "Steam box", limits: { insideMm: [900, 800, 800], maxMouldKg: 180, powerKw: 4 } },
  { kind: "steamer", name: "Little steamer", limits: { insideMm: [500, 500, 500], maxMouldKg: 45, powerKw: 2 } },
  { kind: "trolley", name: "Scissor trolley", limits: { ratedKg: 300, ownKg: 78 } },
  { kind: "trolley", name: "Flat trolley", limits: { ratedKg: 150, ownKg: 24 } },
];

/** Monday to Friday with three to lift, a short Saturday with two. Minutes after midnight. */
export const DEMO_HOURS = [
  ...[1, 2, 3, 4, 5].map((weekday) => ({ weekday, opensMin: 9 * 60, closesMin: 17 * 60 + 30, hands: 4 })),
  { weekday: 6, opensMin: 10 * 60, closesMin: 14 * 60, hands: 3 },
];

const EVERY_DAY = [1, 2, 3, 4, 5, 6, 7];
const WORKING_DAYS = [1, 2, 3, 4, 5];

/** Invented prices, in crowns a kilowatt-hour. */
export const DEMO_TARIFF = {
  currency: "DKK",
  standingPerDay: "2.75",
  bands: [
    { name: "Night", weekdays: EVERY_DAY, from: "00:00", to: "06:00", price: "1.4325" },
    { name: "Day", weekdays: EVERY_DAY, from: "06:00", to: "17:00", price: "2.1875" },
    { name: "Evening peak", weekdays: WORKING_DAYS, from: "17:00", to: "21:00", price: "3.4650" },
    { name: "Day", weekdays: [6, 7], from: "17:00", to: "21:00", price: "2.1875" },
    { name: "Day", weekdays: EVERY_DAY, from: "21:00", to: "24:00", price: "2.1875" },
  ],
};
