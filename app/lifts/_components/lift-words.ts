/** What people on the floor call each movement. */
export const WHAT_WORDS: Readonly<Record<string, string>> = {
  "to-steamer": "mould to the steamer",
  "from-steamer": "mould out of the steamer",
  load: "mould into the kiln",
  unload: "casting out of the kiln",
};

export const FLAG_WORDS: Readonly<Record<string, string>> = {
  amber: "heavy",
  red: "aid needed",
};
