import type { Lift } from "@/lib/domain/firing/casting-plan";
import { handsFor, type Hands } from "./hands";
import { filterFigure, type Zone } from "./hse-filter";

/** All kg. `glassKg` is what is in the mould after the firing; the pot is taken out by itself before. */
export type LiftMasses = {
  readonly wetMouldKg: number;
  readonly waxKg: number;
  readonly dryMouldKg: number;
  readonly potKg: number;
  readonly chargeKg: number;
  readonly firedMouldKg: number;
  readonly glassKg: number;
  readonly driedBeforeLoading: boolean;
};

export type LiftZones = Readonly<Record<Lift["what"], Zone>>;

/**
 * Where the hands are, when the workshop has not said otherwise. A mould going to the steamer is held
 * against the body. One that is hot and dripping is not, and one that is set down inside a kiln is at
 * arm's length: both count as far. The height assumed is knuckle to elbow, which holds when the
 * trolley's deck stands level with the kiln shelf; where a kiln is loaded lower or higher than that,
 * pass its own zone. At 15 kg the far figure for three people meets a NIOSH lifting index of about 2
 * for reaching into a kiln from above (`niosh.ts`), so the two methods flag red together.
 */
export const USUAL_ZONES: LiftZones = {
  "to-steamer": { height: "knuckle-elbow", reach: "near" },
  "from-steamer": { height: "knuckle-elbow", reach: "far" },
  load: { height: "knuckle-elbow", reach: "far" },
  unload: { height: "knuckle-elbow", reach: "far" },
};

/** Condensate a mould may have taken up in the steamer, as a share of its wet mass. Common practice, no source. */
export const CONDENSATE_SHARE = 0.05;

/** Inside of the kiln when it may be opened; skin is hurt by a minute's touch at about 51 °C (ISO 13732-1, from memory). */
export const OPEN_AT_MOST_C = 60;

type Movement = Pick<Lift, "what" | "kg" | "mouldState" | "hot" | "wet"> & { readonly made: string };

/**
 * The lifts of one casting in the order they happen, each with people, trolley, flag and reason. The
 * pot is charged inside the kiln, so the load is the mould alone.
 */
export function liftsOf(masses: LiftMasses, zones: LiftZones = USUAL_ZONES): readonly Lift[] {
  return movementsOf(masses).map(({ made, ...movement }) => {
    const zone = zones[movement.what];
    const hands = handsFor(movement.kg, zone);
    return {
      ...movement,
      hands: hands.hands,
      // Whatever one person should not lift alone is rolled, not carried.
      trolley: hands.flag !== "none",
      flag: hands.flag,
      why: `${made}; ${reasonFor(movement.kg, hands, zone)}.`,
    };
  });
}

function movementsOf(masses: LiftMasses): readonly Movement[] {
  const { wetMouldKg, waxKg, dryMouldKg, potKg, chargeKg, firedMouldKg, glassKg, driedBeforeLoading } = masses;
  const condensateKg = wetMouldKg * CONDENSATE_SHARE;
  const afterwards = `the pot (${figure(potKg)} kg) and its glass (${figure(chargeKg)} kg) follow by hand`;
  return [
    {
      what: "to-steamer", kg: wetMouldKg + waxKg, mouldState: "wet", hot: false, wet: true,
      made: `Wet mould ${figure(wetMouldKg)} kg and wax ${figure(waxKg)} kg`,
    },
    {
      what: "from-steamer", kg: wetMouldKg + condensateKg, mouldState: "wet", hot: true, wet: true,
      made: `Wet mould ${figure(wetMouldKg)} kg and up to ${figure(condensateKg)} kg of condensed steam, hot`,
    },
    driedBeforeLoading
      ? {
          what: "load", kg: dryMouldKg, mouldState: "dry", hot: false, wet: false,
          made: `Dry mould ${figure(dryMouldKg)} kg, ${afterwards}`,
        }
      : {
          what: "load", kg: wetMouldKg, mouldState: "wet", hot: false, wet: true,
          made: `Mould still wet, ${figure(wetMouldKg)} kg, ${afterwards}`,
        },
    {
      what: "unload", kg: firedMouldKg + glassKg, mouldState: "fired", hot: true, wet: false,
      made: `Fired mould ${figure(firedMouldKg)} kg and glass ${figure(glassKg)} kg, still up to ${OPEN_AT_MOST_C} °C`,
    },
  ];
}

const HEIGHT_WORDS: Readonly<Record<Zone["height"], string>> = {
  "above-shoulder": "above the shoulder",
  "elbow-shoulder": "between elbow and shoulder",
  "knuckle-elbow": "between knuckle and elbow",
  "shin-knuckle": "between shin and knuckle",
  "below-shin": "below the shin",
};

function reasonFor(kg: number, hands: Hands, zone: Zone): string {
  const oneKg = figure(filterFigure(zone).cautiousKg);
  const where = `${HEIGHT_WORDS[zone.height]}, ${zone.reach === "near" ? "close to the body" : "at arm's length"}`;
  if (hands.mechanicalAid) {
    return `${figure(kg)} kg is more than three people should lift ${where}: mechanical aid needed, two people guide it`;
  }
  if (hands.hands === 1) return `${figure(kg)} kg is within the ${oneKg} kg filter for one person ${where}`;
  const team = hands.hands === 2 ? "two" : "three";
  return `${figure(kg)} kg is above the ${oneKg} kg filter for one person ${where}; ${team} people cover ${figure(hands.coversKg ?? 0)} kg`;
}

/** One decimal, no trailing zero: 16, 21.3. */
function figure(kg: number): string {
  return String(Math.round(kg * 10) / 10);
}
