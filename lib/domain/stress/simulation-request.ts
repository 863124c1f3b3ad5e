import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { completeGlass } from "@/lib/domain/glass/complete-glass";
import type { Glass } from "@/lib/domain/glass/glass";
import type { Surface } from "@/lib/domain/heat/conduct";
import type { BodyShape } from "@/lib/domain/heat/radial-grid";
import { outOfRange } from "@/lib/domain/range";
import { ok, refusalOf, type Outcome, type Problem } from "@/lib/domain/refusal";
import { kelvin, metres, ROOM_C } from "@/lib/domain/units";
import { coldestEquilibriumK, relaxingGlass } from "./relaxing-glass";
import { endRateKPerH, simulate, type HistoryRow, type Simulation } from "./simulate";

/** A body taken through a kiln program; hours and °C, mm. */
export type SimulationRequest = {
  readonly glass: CastingInput["glass"];
  readonly body: { readonly shape: BodyShape; readonly thicknessMm: number };
  readonly mould?: { readonly wallMm: number };
  readonly surface: Surface;
  readonly startC: number;
  readonly program: readonly (readonly [hours: number, celsius: number])[];
};

export type SimulationAnswer = Omit<Simulation, "history"> & {
  readonly history: readonly Omit<HistoryRow, "tensionMPa">[];
  readonly warnings: readonly string[];
};

/** Longer than this is no firing; nobody's program has more corners. */
const MOST_HOURS = 20_000;
const MOST_CORNERS = 1000;
/** Ending this near to the room is ending at the room. */
const WARM_END_K = 5;

/** Checks a request, all faults at once, and simulates it; what was assumed of an own glass stands in `warnings`. */
export function simulateRequest(request: SimulationRequest): Outcome<SimulationAnswer> {
  const glass = completeGlass(request.glass);
  const problems = [...(glass.ok ? [] : glass.problems), ...bodyProblems(request), ...programProblems(request.program)];
  const refusal = refusalOf(problems);
  if (refusal !== undefined) return refusal;
  if (!glass.ok) return glass;
  const { body, mould, surface, startC, program } = request;
  const result = simulate({
    glass: glass.value.glass, shape: body.shape, thicknessM: metres(body.thicknessMm), mouldWallM: metres(mould?.wallMm ?? 0), surface, startC, program,
  });
  return ok({ ...result, history: result.history.map(({ tensionMPa: _anywhere, ...row }) => row), warnings: [...glass.value.assumptions, ...startWarning(glass.value.glass, startC), ...endWarning(program)] });
}

/** A cold glass cannot be at equilibrium; what is taken instead is said. */
function startWarning(glass: Glass, startC: number): string[] {
  const coldestC = Math.round(coldestEquilibriumK(relaxingGlass(glass)) - kelvin(0));
  if (startC >= coldestC) return [];
  return [`No glass comes to equilibrium at ${startC} °C; it was taken as free of stress, with the structure of a glass annealed at ${coldestC} °C.`];
}

/** A program that ends warm is followed on; at which rate decides the stress, so it is said. */
function endWarning(program: SimulationRequest["program"]): string[] {
  const endC = program.at(-1)?.[1] ?? ROOM_C;
  if (Math.abs(endC - ROOM_C) < WARM_END_K) return [];
  const rate = Number(endRateKPerH(program).toPrecision(3));
  return [`The program ends at ${endC} °C; it was followed on to ${ROOM_C} °C at ${rate} K/h.`];
}

function bodyProblems({ body, mould, surface, startC }: SimulationRequest): Problem[] {
  return [
    outOfRange("body.thicknessMm", body.thicknessMm, 0.5, 1000, "mm"),
    mould === undefined ? undefined : outOfRange("mould.wallMm", mould.wallMm, 1, 200, "mm"),
    surface === "fixed" ? undefined : outOfRange("surface.hWPerM2K", surface.hWPerM2K, 0.5, 100_000, "W/(m²·K)"),
    surface === "fixed" || surface.emissivity === undefined ? undefined : outOfRange("surface.emissivity", surface.emissivity, 0, 1, "(a share)"),
    outOfRange("startC", startC, 0, 1200, "°C"),
  ].filter((problem) => problem !== undefined);
}

function programProblems(program: SimulationRequest["program"]): Problem[] {
  if (program.length === 0 || program.length > MOST_CORNERS) {
    return [{ code: "out-of-range", field: "program", value: program.length, allowed: `1 to ${MOST_CORNERS} corners`, message: `program has ${program.length} corners; it must have 1 to ${MOST_CORNERS}.` }];
  }
  return program.flatMap(([hours, celsius], at) => {
    const before = program[at - 1]?.[0] ?? 0;
    const ranges = [outOfRange(`program.${at}.0`, hours, 0, MOST_HOURS, "h"), outOfRange(`program.${at}.1`, celsius, -50, 1200, "°C")];
    const backwards = hours < before ? [{ code: "out-of-order", field: `program.${at}.0`, value: hours, allowed: `${before} h or later`, message: `program.${at}.0 is ${hours} h, before the corner that stands in front of it; it must be ${before} h or later.` }] : [];
    return [...ranges.filter((problem) => problem !== undefined), ...backwards];
  });
}
