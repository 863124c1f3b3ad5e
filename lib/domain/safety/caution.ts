/**
 * The words that stand, whole, on every check sheet, lift sheet, door card and printout. They say what
 * such a list cannot do and who decides instead.
 */
export const CAUTION_SENTENCES = [
  "This list supports, and does not replace, the workshop's own risk assessment, the equipment makers' instructions, and local law, fire and electrical codes.",
  "Have kilns, circuits, isolators, ventilation and lifting gear installed, checked and changed only by licensed electricians and other competent people.",
  "Numbers shown are planning estimates.",
  "If anything looks, smells or feels wrong: stop, make safe, and fetch the manager.",
] as const;

export const CAUTION: string = CAUTION_SENTENCES.join(" ");
