export type Caution = { readonly about: string; readonly text: string };

const ALWAYS: readonly Caution[] = [
  { about: "Heat", text: "The load stays hot for days after the program ends. Open when the whole mould has cooled, not when the controller says so." },
  {
    about: "Silica dust",
    text: "Mixing investment and breaking a fired mould set free silica dust that scars lungs. Wet it, work at extraction, wear the mask your workshop prescribes; never sweep dry.",
  },
  { about: "Steam", text: "Steam-out scalds, and a mould dried too fast can burst. Drain first, stand aside, keep the vent open while it dries." },
  { about: "Lifting", text: "Masses here are worked out, not weighed. Use the trolley and the hands given; whoever doubts a lift stops it." },
];

const LEAD: Caution = {
  about: "Lead",
  text: "This glass holds lead. Grind it wet only, keep food away, wash before eating, collect the slurry as your local rules ask, and do not sell it for food or drink without the tests the law requires.",
};

/** The usual cautions of casting, for the glass in hand. */
export function castingCautions(leadGlass: boolean): readonly Caution[] {
  return leadGlass ? [...ALWAYS, LEAD] : ALWAYS;
}
