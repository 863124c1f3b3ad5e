export type NotCovered = { readonly what: string; readonly why: string };

/** What the calculation knows nothing of, and what that means for the piece. From memory and common practice, no figures behind it. */
export const NOT_COVERED: readonly NotCovered[] = [
  { what: "seeds and inclusions", why: "A bubble, a stone or a bit of mould in the glass has stress of its own around it, which no slow cooling takes away." },
  { what: "pieces of another glass attached", why: "Two glasses that shrink differently pull on each other for good, however slowly they are cooled." },
  { what: "the mould holding the glass while it shrinks", why: "Glass shrinks more than its mould; where it grips a core, an undercut or the feeder, the mould pulls and may crack it." },
  { what: "uneven heat in the kiln", why: "A side that is warmer than the other freezes later, and the difference stays as stress, however slow the program." },
];

/** The same in one sentence, for the warnings of a plan. */
export const NOT_COVERED_SENTENCE = `Not covered: ${NOT_COVERED.slice(0, -1).map(({ what }) => what).join(", ")}, and ${NOT_COVERED.at(-1)?.what ?? ""}.`;
