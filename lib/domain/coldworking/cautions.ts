/** What grinding and polishing can do; stands beside every cold-working plan. */
const ALWAYS = [
  "Grind wet, always: dry glass and leftover mould are dust that scars lungs. Wash the last of the mould off before the first grit.",
  "Water and electricity: have the residual-current device tested today, cables off the wet floor, guards on, sleeves and hair tied back.",
  "Wear eye and ear protection and waterproof gloves; take breaks from vibrating tools. Two people lift a heavy piece off a lap.",
  "Wash piece, bench and hands between grits: one coarse grain scratches all that follows. Let no slurry or polish dry; clean wet, never sweep.",
] as const;

const LEAD = "This glass holds lead. Wet only, with an apron of its own; wash before eating, keep children and food away, and collect slurry and wash water as lead waste as your local rules ask. Who does it regularly asks about blood and air tests.";

const LOCAL = "Local rules on silica, lead, electricity and waste water come first.";

export function coldWorkCautions(lead: boolean): readonly string[] {
  return lead ? [LEAD, ...ALWAYS, LOCAL] : [...ALWAYS, LOCAL];
}
