/** One figure of a piece of equipment: how it is called, its unit, and the range a form accepts. */
export type Measure = {
  readonly label: string;
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  readonly whole?: boolean;
  readonly hint?: string;
};

const INSIDE = {
  width: { label: "Inside width", unit: "mm", min: 100, max: 5000 },
  depth: { label: "Inside depth", unit: "mm", min: 100, max: 5000 },
  height: { label: "Inside height", unit: "mm", min: 100, max: 5000 },
} as const satisfies Readonly<Record<string, Measure>>;

export const KILN_MEASURES = {
  ...INSIDE,
  wallClearanceMm: { label: "Clearance to walls and elements", unit: "mm", min: 0, max: 300, hint: "Kept free on each side of the load." },
  headroomMm: { label: "Headroom", unit: "mm", min: 0, max: 500, hint: "Kept free above the pot." },
  shelfLoadKg: { label: "Shelf load", unit: "kg", min: 1, max: 5000, hint: "What the shelf’s maker allows, hot." },
  powerKw: { label: "Rated power", unit: "kW", min: 0.5, max: 200, hint: "From the rating plate." },
  lossWPerK: { label: "Heat loss", unit: "W/K", min: 0.2, max: 100, hint: "Power held at a steady temperature, divided by how far that lies above the room." },
  heatCapacityKJPerK: { label: "Heat capacity", unit: "kJ/K", min: 1, max: 5000, hint: "Of lining and furniture: what it takes to warm the empty kiln by one degree." },
  maxC: { label: "Highest temperature", unit: "°C", min: 400, max: 1400, hint: "What the maker allows." },
  controllerSegments: { label: "Controller segments", unit: "", min: 4, max: 200, whole: true, hint: "The most steps one program may have." },
  minRateKPerH: { label: "Slowest rate", unit: "K/h", min: 0.01, max: 100, hint: "The slowest change the controller can hold." },
  turnaroundHours: { label: "Turnaround", unit: "h", min: 0, max: 72, hint: "From unloaded to free for the next load." },
} as const satisfies Readonly<Record<string, Measure>>;

export const STEAMER_MEASURES = {
  ...INSIDE,
  maxMouldKg: { label: "Heaviest mould", unit: "kg", min: 1, max: 2000 },
  powerKw: { label: "Rated power", unit: "kW", min: 0.5, max: 50, hint: "From the rating plate." },
} as const satisfies Readonly<Record<string, Measure>>;

export const TROLLEY_MEASURES = {
  ratedKg: { label: "Rated load", unit: "kg", min: 10, max: 5000, hint: "From the plate." },
  ownKg: { label: "Own mass", unit: "kg", min: 1, max: 1000, hint: "Counts where it is pushed." },
} as const satisfies Readonly<Record<string, Measure>>;

export type EquipmentField = Measure & {
  /** Dotted path of the figure in the description, and the name of its field. */
  readonly path: string;
};

const insideFields = (of: typeof INSIDE): readonly EquipmentField[] => [
  { path: "limits.insideMm.0", ...of.width },
  { path: "limits.insideMm.1", ...of.depth },
  { path: "limits.insideMm.2", ...of.height },
];

const plainFields = <Key extends string>(of: Readonly<Record<Key, Measure>>, keys: readonly Key[]): readonly EquipmentField[] =>
  keys.map((key) => ({ path: `limits.${key}`, ...of[key] }));

/** The figures of each kind, in the order a form asks for them. */
export const EQUIPMENT_FIELDS = {
  kiln: [
    ...insideFields(KILN_MEASURES),
    ...plainFields(KILN_MEASURES, [
      "wallClearanceMm", "headroomMm", "shelfLoadKg", "maxC", "powerKw", "lossWPerK", "heatCapacityKJPerK", "controllerSegments",
      "minRateKPerH", "turnaroundHours",
    ]),
  ],
  steamer: [...insideFields(STEAMER_MEASURES), ...plainFields(STEAMER_MEASURES, ["maxMouldKg", "powerKw"])],
  trolley: plainFields(TROLLEY_MEASURES, ["ratedKg", "ownKg"]),
} as const satisfies Readonly<Record<"kiln" | "steamer" | "trolley", readonly EquipmentField[]>>;
