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

type Piece = {
  readonly equipmentId: string;
  readonly name: string;
  /** ISO day: the last one on which it may be used before it is inspected again. Nothing falls due without it. */
  readonly inspectionDue?: string | null | undefined;
};

export type Equipment =
  | (Piece & {
      readonly kind: "kiln";
      readonly limits: KilnLimits;
      /** Only who was shown this kiln has castings fired in it. */
      readonly needsInduction?: boolean | undefined;
    })
  | (Piece & { readonly kind: "steamer"; readonly limits: SteamerLimits })
  | (Piece & { readonly kind: "trolley"; readonly limits: TrolleyLimits });

export type EquipmentKind = Equipment["kind"];
export type Kiln = Extract<Equipment, { kind: "kiln" }>;
export type Steamer = Extract<Equipment, { kind: "steamer" }>;
export type Trolley = Extract<Equipment, { kind: "trolley" }>;
