import type { Glass } from "@/lib/domain/glass/glass";

/** What a stress shows in polarised light, nm for every cm of path: stress-optic coefficient (1 brewster = 1e-12/Pa) times stress. */
export function retardationNmPerCm({ stressOpticBrewster }: Pick<Glass, "stressOpticBrewster">, stressMPa: number): number {
  return 10 * stressOpticBrewster * stressMPa;
}
