import type { Material } from "./conduct";

/** Fired plaster and silica, as in mould-heat.ts: 0.4 W/(m·K), 3e-7 m²/s (from memory, medium). */
export const FIRED_MOULD: Material = { conductivity: () => 0.4, capacity: () => 0.4 / 3e-7 };
