import type { Stage, StageName } from "@/lib/domain/firing/casting-plan";

/** A ramp from one temperature to another at a rate (K/h, > 0, sign taken from the direction). */
export function ramp(stage: StageName, fromC: number, toC: number, rateKPerH: number, why: string): Stage {
  const sign = toC < fromC ? -1 : 1;
  return { stage, toC, rateKPerH: sign * rateKPerH, hours: Math.abs(toC - fromC) / rateKPerH, why };
}

/** A ramp whose length is known and whose rate is what follows from it. */
export function rampIn(stage: StageName, fromC: number, toC: number, hours: number, why: string): Stage {
  return { stage, toC, rateKPerH: hours > 0 ? (toC - fromC) / hours : 0, hours, why };
}

export function hold(stage: StageName, atC: number, hours: number, why: string): Stage {
  return { stage, toC: atC, rateKPerH: 0, hours, why };
}

export function totalHours(stages: readonly Stage[]): number {
  return stages.reduce((sum, stage) => sum + stage.hours, 0);
}
