import type { SharedCasting } from "@/lib/domain/firing/casting-plan";
import type { PlanHistory } from "@/lib/domain/firing/plan-history";
import type { Place } from "./pack-shelf";
import type { PreparedSharer } from "./sharer";

/** What a joined plan keeps of one casting: its own masses, where it stands, its stress, and what it would take alone. */
export function sharedCasting({ castingId, title, input, alone, glass, load, limits }: PreparedSharer, stress: PlanHistory["stress"] | undefined, places: readonly Place[]): SharedCasting {
  const place = places.find(({ id }) => id === castingId);
  return {
    castingId, title,
    glassName: glass.name,
    driedBeforeLoading: input.mould?.driedBeforeLoading ?? false,
    waxKg: load.waxKg,
    mould: { wetKg: load.mould.wetKg, dryKg: load.mould.dryKg, outsideMm: load.mould.outsideMm },
    chargeKg: load.glass.chargeKg,
    potL: load.pot.litres,
    shelfKg: load.shelfKg,
    steamOut: alone.steamOut,
    drying: alone.drying,
    alone: { firingHours: alone.firing.hours, reservationHours: alone.reservation.hours, kWh: alone.energy.kWh },
    stress: {
      permanentMPa: Math.max(stress?.permanentCentreMPa ?? 0, stress?.permanentSurfaceMPa ?? 0), permanentLimitMPa: limits.permanentMPa,
      passingMPa: stress?.passingMPa ?? 0, passingLimitMPa: limits.passingMPa,
    },
    place: { xMm: place?.xMm ?? 0, yMm: place?.yMm ?? 0, widthMm: place?.widthMm ?? 0, depthMm: place?.depthMm ?? 0, heightMm: load.loadMm.height, round: place?.round ?? false },
  };
}
