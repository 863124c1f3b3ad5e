/**
 * The check sheet every firing starts from. "block": the firing may not start before it is ticked or
 * the manager has overridden it with a reason. "open": the same for opening and unloading. "remind":
 * shown, and kept when ticked.
 *
 * Each item says where it comes from. Items marked "common practice, no source" are workshop habit;
 * "from memory" means the figure was not read in the source when it was written down. Limits differ
 * from country to country: the local ones count.
 */
export type CheckPhase = "wax-and-mould" | "steam-out" | "load" | "start" | "soak-and-cool" | "open" | "divest" | "coldwork";
export type CheckLevel = "block" | "open" | "remind";
export type CheckScope = "firing" | "kiln" | "person" | "person-and-kiln" | "equipment" | "workshop";

export type CheckItem = {
  readonly code: string;
  readonly phase: CheckPhase;
  readonly level: CheckLevel;
  readonly scope: CheckScope;
  /** What must be true, to be ticked by whoever has looked. */
  readonly text: string;
  readonly why: string;
  readonly source: string;
};

/** Changes with every change of an item; a sheet keeps the version it was made from. */
export const TEMPLATE_VERSION = "2026-11-25";

export const PHASES: readonly { readonly phase: CheckPhase; readonly title: string }[] = [
  { phase: "wax-and-mould", title: "Wax and mould" },
  { phase: "steam-out", title: "Steam-out" },
  { phase: "load", title: "Load" },
  { phase: "start", title: "Start" },
  { phase: "soak-and-cool", title: "Soak and cool" },
  { phase: "open", title: "Open" },
  { phase: "divest", title: "Break the mould away" },
  { phase: "coldwork", title: "Grind and polish" },
];

const PRACTICE = "common practice, no source";

export const TEMPLATE: readonly CheckItem[] = [
  {
    code: "W1", phase: "wax-and-mould", level: "remind", scope: "person",
    text: "A well-fitting P3 or N100 mask is on, extraction runs, powder goes into the water and not the other way round, bins are closed.",
    why: "Fine silica dust scars the lungs for good.",
    source: "OSHA 29 CFR 1910.1053 (limit for respirable crystalline silica); mask class: common practice, no source",
  },
  {
    code: "W2", phase: "wax-and-mould", level: "remind", scope: "person",
    text: "Dust is wiped up wet or taken by an H-class or HEPA vacuum; nobody sweeps dry.",
    why: "Sweeping puts settled silica back into the air.",
    source: "common practice, no source; duty to limit exposure: OSHA 29 CFR 1910.1053",
  },
  {
    code: "W3", phase: "wax-and-mould", level: "remind", scope: "person",
    text: "No hand stays in setting plaster; gloves are on and the eye wash is within reach.",
    why: "Plaster heats to about 60 °C while it sets and has burnt hands beyond saving.",
    source: "NSEAD guidance on plaster of Paris",
  },
  {
    code: "W4", phase: "wax-and-mould", level: "remind", scope: "person",
    text: "Wax melts on a thermostat, never over bare heat, with lid and fire blanket at hand and somebody watching. No water on burning wax.",
    why: "Overheated wax catches fire; water makes it explode.",
    source: "wax suppliers' safety notes",
  },
  {
    code: "W5", phase: "wax-and-mould", level: "block", scope: "firing",
    text: "Written down: mix, wet mass of the mould, glass and its mass, mesh, wall thickness.",
    why: "Drying, lifting and the firing plan are computed from these.",
    source: "computed inputs of the firing plan",
  },
  {
    code: "S1", phase: "steam-out", level: "remind", scope: "equipment",
    text: "Vent and drain are open, the hose is sound, water is topped up, and the steamer cannot boil dry.",
    why: "Blocked steam scalds and bursts.",
    source: PRACTICE,
  },
  {
    code: "S2", phase: "steam-out", level: "remind", scope: "person",
    text: "Face shield and long gloves are on; the lid opens away from the body; 15 minutes of cooling pass before lifting.",
    why: "Steam scalds at once.",
    source: PRACTICE,
  },
  {
    code: "S3", phase: "steam-out", level: "remind", scope: "equipment",
    text: "The steamer hangs on a residual-current device of 30 mA or less and its cable is off the wet floor.",
    why: "Water and mains together can kill.",
    source: "HSE guidance on electrical equipment; HSG261",
  },
  {
    code: "S4", phase: "steam-out", level: "block", scope: "firing",
    text: "At least 98 % of the wax was weighed coming out, or the cavity was looked into and is clean.",
    why: "Wax left behind smokes, flames and marks the glass.",
    source: PRACTICE,
  },
  {
    code: "S5", phase: "steam-out", level: "remind", scope: "person",
    text: "The pan of hot wax and water is moved only once it has set.",
    why: "Spilled hot wax sticks and burns.",
    source: "wax suppliers' safety notes",
  },
  {
    code: "L1", phase: "load", level: "block", scope: "kiln",
    text: "The kiln was isolated while hands were inside, locked off if others were about, and I restored it.",
    why: "Elements are live whenever the kiln is on.",
    source: "NHS kiln safety note, 2000",
  },
  {
    code: "L2", phase: "load", level: "block", scope: "person-and-kiln",
    text: "Whoever loads has been inducted on this kiln.",
    why: "Each kiln has its own ways to go wrong.",
    source: "Texas Division of Workers' Compensation HS04-039A; CLEAPSS notes on kilns",
  },
  {
    code: "L3", phase: "load", level: "block", scope: "kiln",
    text: "The kiln's yearly service and electrical test are in date and no defect is open.",
    why: "A worn kiln burns or shocks.",
    source: "Wiltshire Council kiln risk assessment",
  },
  {
    code: "L4", phase: "load", level: "block", scope: "firing",
    text: "The mould was weighed: no more free water than 5 % of its dry mass, or the plan holds to dry it.",
    why: "Water that boils inside a mould cracks it and fills the room with steam.",
    source: "common practice, no source; target mass computed",
  },
  {
    code: "L5", phase: "load", level: "block", scope: "firing",
    text: "The load is within the shelf's rating and touches neither element nor thermocouple.",
    why: "A shelf that gives way, a short, or a reading that lies for weeks.",
    source: PRACTICE,
  },
  {
    code: "L6", phase: "load", level: "block", scope: "firing",
    text: "The charge is no more than cavity and pot hold, and a tray, sand or wash lies under the mould.",
    why: "Glass that runs over eats brick and elements.",
    source: "computed from the casting; tray and wash: common practice, no source",
  },
  {
    code: "L7", phase: "load", level: "remind", scope: "firing",
    text: "The lift is talked through: mass, heights, and the people or trolley for it are here.",
    why: "Backs and feet.",
    source: "HSE INDG143; HSE L23; NIOSH publication 94-110",
  },
  {
    code: "L8", phase: "load", level: "remind", scope: "equipment",
    text: "Trolley and load together are within the plate's figure, brakes are on, the way is clear.",
    why: "A tipping trolley crushes.",
    source: "HSE guidance on pushing and pulling; castor makers' load rule",
  },
  {
    code: "L9", phase: "load", level: "remind", scope: "firing",
    text: "The pot has no crack and stands on props of its own, not on the mould.",
    why: "A pot that breaks drops molten glass.",
    source: PRACTICE,
  },
  {
    code: "T1", phase: "start", level: "block", scope: "firing",
    text: "The program in the controller was read against glass, thickness and mould. A plaster-silica mould above 850 °C needs a reason; above 880 °C it must not start.",
    why: "Plaster breaks down near 880 to 900 °C, gives off sulphur trioxide, and the mould fails.",
    source: "a glass maker's technical note on investments (880 to 900 °C); 850 °C: common practice",
  },
  {
    code: "T2", phase: "start", level: "block", scope: "kiln",
    text: "The over-temperature cut-out is set, and a second person has read program and clock back.",
    why: "A controller that sticks runs away.",
    source: "Wiltshire Council kiln risk assessment; reading back: common practice, no source",
  },
  {
    code: "T3", phase: "start", level: "block", scope: "kiln",
    text: "Extraction or vent runs while water, wax and binder burn off, to about 600 °C.",
    why: "Fume and steam fill the room.",
    source: "Wiltshire Council kiln risk assessment; 600 °C: common practice, no source",
  },
  {
    code: "T4", phase: "start", level: "block", scope: "kiln",
    text: "Nothing that burns is near, the sign or light says firing, the extinguisher was looked at.",
    why: "The shell of a kiln may pass 100 °C for days.",
    source: "Wiltshire Council kiln risk assessment; CLEAPSS notes on kilns",
  },
  {
    code: "T5", phase: "start", level: "block", scope: "firing",
    text: "A person on duty and a deputy are named for every 24 hours, and their numbers hang at the kiln.",
    why: "Nobody stays awake for a firing of weeks; somebody must be reachable.",
    source: "Texas Division of Workers' Compensation HS04-039A; rota: common practice, no source",
  },
  {
    code: "T6", phase: "start", level: "block", scope: "workshop",
    text: "All kilns that heat at the same time stay within the power limit the electrician gave.",
    why: "Overloaded wiring overheats in the wall.",
    source: "US National Electrical Code on loads of three hours and more, as discussed by electricians",
  },
  {
    code: "M1", phase: "soak-and-cool", level: "remind", scope: "firing",
    text: "Somebody looks in at the end of the climb, at the peak, at the start of the soak, then twice a day: temperature against plan, smell, noise.",
    why: "Faults found early cost least.",
    source: PRACTICE,
  },
  {
    code: "M2", phase: "soak-and-cool", level: "remind", scope: "person",
    text: "Infrared eyewear is on, nothing hangs loose, power is off before the kiln is opened to look or top up.",
    why: "Radiant heat harms eyes and skin; elements are live.",
    source: "NHS kiln safety note, 2000; eyewear: common practice, no source",
  },
  {
    code: "M3", phase: "soak-and-cool", level: "remind", scope: "firing",
    text: "At 15 °C or 30 minutes off the plan, or after a power cut, the manager is called; nobody restarts blind.",
    why: "A blind restart cracks the casting or starts a fire.",
    source: PRACTICE,
  },
  {
    code: "C1", phase: "open", level: "open", scope: "firing",
    text: "Inside is at most 60 °C, and within 20 °C of the room for large work; the power is off and isolated.",
    why: "Cold air cracks thick glass; hot shelves burn skin.",
    source: "contact burn thresholds of ISO 13732-1, from memory",
  },
  {
    code: "C2", phase: "open", level: "open", scope: "firing",
    text: "The shortest natural cooling of the plan has passed.",
    why: "The middle of thick glass lags behind the thermocouple.",
    source: "computed, firing plan",
  },
  {
    code: "C3", phase: "open", level: "open", scope: "firing",
    text: "The lift is talked through again with the fired mass: mould and glass together.",
    why: "It is heavier than what went in, and warm.",
    source: "computed; HSE INDG143",
  },
  {
    code: "D1", phase: "divest", level: "remind", scope: "person",
    text: "Mask on, mould wetted before it is broken, extraction on, waste bagged, nothing swept dry.",
    why: "Fired investment may hold cristobalite, the worse kind of silica.",
    source: "HSE guidance on silica in ceramics; cristobalite: from memory",
  },
  {
    code: "D2", phase: "divest", level: "remind", scope: "person",
    text: "Gloves and goggles are on.",
    why: "Glass flash and wire ends are sharp.",
    source: PRACTICE,
  },
  {
    code: "X1", phase: "coldwork", level: "remind", scope: "equipment",
    text: "Water runs, the residual-current device was tested today, guards are on, sleeves are tight.",
    why: "Shock, dust, and being caught.",
    source: "HSE guidance on electrical equipment; HSG261",
  },
  {
    code: "X2", phase: "coldwork", level: "remind", scope: "person",
    text: "Lead glass is worked wet only, in an apron of its own; hands are washed before food; sludge is kept as lead waste; no children here. Regular work needs air and blood tests.",
    why: "Lead builds up in the body.",
    source: "OSHA 29 CFR 1910.1025",
  },
  {
    code: "X3", phase: "coldwork", level: "remind", scope: "person",
    text: "Ear, eye and hand protection are on, and there are breaks from vibrating tools.",
    why: "Noise, splashes and vibration.",
    source: PRACTICE,
  },
];
