import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import type { PreparedSharer } from "./sharer";

type Sums = Pick<CastingPlan, "glass" | "pot" | "mould" | "waxKg">;

/** Masses of a whole load: sums, and for sizes of pots the largest. */
export function joinLoad(sharers: readonly PreparedSharer[], boxMm: readonly [number, number, number]): Sums {
  const sum = (of: (one: PreparedSharer) => number): number => sharers.reduce((total, one) => total + of(one), 0);
  const most = (of: (one: PreparedSharer) => number): number => Math.max(...sharers.map(of));
  const glass = (key: Exclude<keyof CastingPlan["glass"], "name">): number => sum(({ load }) => load.glass[key]);
  const mould = (key: Exclude<keyof CastingPlan["mould"], "outsideMm">): number => sum(({ load }) => load.mould[key]);
  return {
    glass: {
      name: [...new Set(sharers.map((one) => one.glass.name))].join(" and "),
      pieceKg: glass("pieceKg"), feederKg: glass("feederKg"), headKg: glass("headKg"), residueKg: glass("residueKg"), chargeKg: glass("chargeKg"),
    },
    pot: { litres: sum(({ load }) => load.pot.litres), heightMm: most(({ load }) => load.pot.heightMm), diameterMm: most(({ load }) => load.pot.diameterMm), kg: sum(({ load }) => load.pot.kg) },
    mould: {
      wetKg: mould("wetKg"), dryKg: mould("dryKg"), firedKg: mould("firedKg"), powderKg: mould("powderKg"), plasterKg: mould("plasterKg"), silicaKg: mould("silicaKg"),
      waterKg: mould("waterKg"), freeWaterKg: mould("freeWaterKg"), boundWaterKg: mould("boundWaterKg"), outsideMm: boxMm,
    },
    waxKg: sum(({ load }) => load.waxKg),
  };
}
