import type { Mould } from "@/lib/domain/firing/casting-input";
import type { MarginItem } from "@/lib/domain/firing/casting-plan";
import type { Programmed } from "@/lib/domain/firing/cooling";
import { inDigits } from "@/lib/domain/firing/figures";
import { wallDryHours } from "@/lib/domain/firing/heating";
import { totalHours } from "@/lib/domain/firing/segment";

/** Ageing elements and a controller that waits until the kiln follows: a share of the program. */
const BEHIND_SHARE = 0.015;
/** What is left of the drying of a wet wall when a mould that felt dry is still damp inside. */
const DAMP_SHARE = 0.25;
/** Whole minutes are what a segment of a controller takes (from memory). */
const SEGMENT_ROUNDING_HOURS = 1 / 60;
/** The last kelvins of the core come slowest: as a share of the stage Open. */
const CORE_SHARE = 0.5;
/** A look through the spy hole with the power cut, or a power cut that needs a restart. */
const LOOK_HOURS = 2;
/** Isolating the kiln, opening it by a crack and measuring, before anybody lifts. */
const OPENING_HOURS = 0.5;

const PRACTICE = "common practice, no source";

/** Why a kiln is held longer than its program when nothing is known of how its firings went, up to a whole hour. */
export function usualMargin(program: readonly Programmed[], mould: Mould | undefined): readonly MarginItem[] {
  const programHours = totalHours(program);
  const items = [behind(programHours), ...drying(mould), ...steps(program), look(), ...core(program), opening()];
  const exact = programHours + items.reduce((sum, { hours }) => sum + hours, 0);
  const rest = Math.ceil(exact) - exact;
  return rest > 0 ? [...items, { what: "up to a whole hour", hours: rest, why: "Kiln time is held in whole hours.", source: "worked out" }] : items;
}

function behind(programHours: number): MarginItem {
  const hours = BEHIND_SHARE * programHours;
  return { what: "kiln behind its program", hours, why: `Elements age and a controller waits for the kiln to follow: ${inDigits(100 * BEHIND_SHARE)} % of ${inDigits(programHours)} h.`, source: PRACTICE };
}

function drying(mould: Mould | undefined): MarginItem[] {
  if (mould === undefined) return [];
  const { wallMm, driedBeforeLoading } = mould;
  const hours = DAMP_SHARE * wallDryHours(wallMm);
  const share = `${inDigits(hours)} h, a quarter of what a wet wall of ${wallMm} mm takes`;
  const why = driedBeforeLoading === true
    ? `A mould that feels dry may be damp inside, and is then held at 95 °C until the vent shows no steam: ${share}.`
    : `The program goes on only when the vent shows no steam, and a wet mould may steam for longer than planned: ${share}.`;
  return [{ what: "drying on", hours, why, source: PRACTICE }];
}

function steps(program: readonly Programmed[]): MarginItem[] {
  const segments = program.reduce((sum, stage) => sum + (stage.segments > 1 ? stage.segments : 0), 0);
  if (segments === 0) return [];
  const hours = segments * SEGMENT_ROUNDING_HOURS;
  return [{ what: "controller steps", hours, why: `Rates below the controller's slowest become ${segments / 2} steps of two segments, and each segment rounds up to a whole minute: ${inDigits(hours)} h at most.`, source: "from memory" }];
}

function look(): MarginItem {
  return { what: "a look or a short power cut", hours: LOOK_HOURS, why: `The kiln is switched off for a look, or restarted after a short power cut: ${LOOK_HOURS} h.`, source: PRACTICE };
}

function core(program: readonly Programmed[]): MarginItem[] {
  const open = program.reduce((sum, { stage, hours }) => sum + (stage === "Open" ? hours : 0), 0);
  const hours = CORE_SHARE * open;
  return hours > 0 ? [{ what: "waiting for the core", hours, why: `Nothing is opened before the core is below 60 °C too, and its last kelvins come slowest: half of the ${inDigits(open)} h planned for it once more.`, source: PRACTICE }] : [];
}

function opening(): MarginItem {
  return { what: "opening to unload", hours: OPENING_HOURS, why: `Isolating the kiln, opening it by a crack and measuring before anybody lifts: ${inDigits(OPENING_HOURS)} h. The lift itself is booked beside.`, source: PRACTICE };
}
