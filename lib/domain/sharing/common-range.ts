import { refuse, type Refusal } from "@/lib/domain/refusal";

/** What one casting stands, °C, both ends included. */
export type OwnRange = { readonly title: string; readonly glassName: string; readonly lowC: number; readonly highC: number };

export type CommonRange = { readonly lowC: number; readonly highC: number };

/** What all of them stand; its low end is above its high end when they have nothing in common. */
export function commonRange(ranges: readonly OwnRange[]): CommonRange {
  return { lowC: Math.max(...ranges.map(({ lowC }) => lowC)), highC: Math.min(...ranges.map(({ highC }) => highC)) };
}

/** A refusal where ranges have no temperature in common: the two that are furthest apart, and what would be allowed. */
export function apart(doing: "flow" | "soak", ranges: readonly OwnRange[]): Refusal | undefined {
  const { lowC, highC } = commonRange(ranges);
  if (highC >= lowC) return undefined;
  const hot = ranges.find((range) => range.lowC === lowC);
  const cold = ranges.find((range) => range.highC === highC);
  if (hot === undefined || cold === undefined) return undefined;
  const span = ({ lowC: from, highC: to }: OwnRange): string => `${from} to ${to} °C`;
  const allowed = `a glass that ${doing}s somewhere between ${cold.lowC} and ${cold.highC} °C`;
  return refuse({
    code: `no-common-${doing}`, field: "glass", value: `${span(cold)} and ${span(hot)}`, allowed,
    message: `${cold.title} (${cold.glassName}) ${doing}s at ${span(cold)} and ${hot.title} (${hot.glassName}) at ${span(hot)}: no temperature does for both. With ${cold.title} goes only ${allowed}.`,
  });
}
