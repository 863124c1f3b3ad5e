/** The kinds of equipment and the limits each kind has. Limits are the workshop's own figures. */
export type KilnLimits = {
  readonly insideMm: readonly [width: number, depth: number, height: number];
  /** Kept free between the load and walls or elements, each side. */
  readonly wallClearanceMm: number;
  /** Kept free above the pot. */
  readonly headroomMm: number;
  readonly shelfLoadKg: number;
  readonly powerKw: number;
  readonly lossWPerK: number;
  readonly heatCapacityKJPerK: number;
  readonly maxC: number;
  readonly controllerSegments: number;
  readonly minRateKPerH: number;
  /** From unloaded to free for the next load. */
  readonly turnaroundHours: number;
};

export type SteamerLimits = {
  readonly insideMm: readonly [width: number, depth: number, height: number];
  readonly maxMouldKg: number;
  readonly powerKw: number;
};

export type TrolleyLimits = {
  /** From the plate, for trolley plus load where the plate says so; see `ownKg`. */
  readonly ratedKg: number;
  readonly ownKg: number;
};

export type Equipment =
  | { readonly kind: "kiln"; readonly equipmentId: string; readonly name: string; readonly limits: KilnLimits }
  | { readonly kind: "steamer"; readonly equipmentId: string; readonly name: string; readonly limits: SteamerLimits }
  | { readonly kind: "trolley"; readonly equipmentId: string; readonly name: string; readonly limits: TrolleyLimits };

export type EquipmentKind = Equipment["kind"];
export type Kiln = Extract<Equipment, { kind: "kiln" }>;
export type Steamer = Extract<Equipment, { kind: "steamer" }>;
export type Trolley = Extract<Equipment, { kind: "trolley" }>;
