import type { ReactNode } from "react";

/** A mail's text, with its addresses as links, as a mail program shows it. */
export function linesWithLinks(text: string): readonly ReactNode[] {
  return text.split(/(https?:\/\/\S+)/).map((part, place) => (place % 2 === 0 ? part : <a key={place} href={part}>{part}</a>));
}
