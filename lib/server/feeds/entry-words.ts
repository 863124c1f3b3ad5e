/** What each booking and lift is called in somebody's calendar, between their other appointments. */
export const ENTRY_WORDS: Readonly<Record<string, string>> = {
  "steam-out": "Steam out",
  kiln: "Kiln",
  "to-steamer": "Mould to the steamer",
  "from-steamer": "Mould out of the steamer",
  load: "Load the kiln",
  unload: "Unload the kiln",
};

export const FLAG_WORDS: Readonly<Record<string, string>> = { amber: "Heavy.", red: "Aid needed." };

type LiftFacts = {
  readonly kg: number;
  readonly hands: number;
  readonly hot: boolean;
  readonly wet: boolean;
  readonly flag: string;
  readonly fromPlace: string;
  readonly toPlace: string;
  readonly trolley: { readonly name: string } | null;
};

/** A lift as the sheet says it. The sheet itself is newer than any calendar that was read an hour ago, and says so. */
export function liftWords({ kg, hands, hot, wet, flag, fromPlace, toPlace, trolley }: LiftFacts): string {
  const people = hands === 1 ? "one person" : `${hands} people`;
  const on = trolley === null ? "" : `, ${trolley.name}`;
  const cautions = [hot ? "Hot." : "", wet ? "Wet." : "", FLAG_WORDS[flag] ?? ""].filter((word) => word !== "");
  return [`${Math.round(kg)} kg, ${people}${on}.`, `${fromPlace} to ${toPlace}.`, ...cautions, "Look at the lift sheet of the day before you lift, and keep to the workshop's own rules."].join("\n");
}
