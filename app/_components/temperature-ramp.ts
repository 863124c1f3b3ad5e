/**
 * The one colour ramp for temperature: cool slate at room temperature, through dusk and clay, to pale
 * straw at process temperature. The anchors are joined by straight lines in OKLab and walked at an
 * even pace, so equal steps in °C look equally large; lightness rises all the way, so the order
 * survives greyscale printing and colour-vision deficiencies.
 */
type Lab = readonly [lightness: number, a: number, b: number];

/** Where the ramp begins and ends. Outside, the end colour is shown: a colour is no measurement. */
export const RAMP_FROM_C = 20;
export const RAMP_TO_C = 900;

const ANCHORS: readonly Lab[] = [
  lab(0.43, 0.035, 252),
  lab(0.53, 0.062, 318),
  lab(0.645, 0.118, 28),
  lab(0.785, 0.125, 66),
  lab(0.945, 0.075, 98),
];

/** CSS colour for a temperature in °C, e.g. `oklch(0.645 0.118 28)`. Not-a-number reads as the cold end. */
export function rampColour(celsius: number): string {
  const [lightness, a, b] = rampLab(celsius);
  const hue = ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360;
  return `oklch(${round(lightness, 4)} ${round(Math.hypot(a, b), 4)} ${round(hue, 2)})`;
}

/** Ink that stands at 4.5:1 or more on {@link rampColour} of the same temperature. */
export function rampInk(celsius: number): string {
  return rampLab(celsius)[0] < 0.574 ? "#fff" : "oklch(0.12 0 0)";
}

/** The same ramp in OKLab, for measuring with. */
export function rampLab(celsius: number): Lab {
  const share = (celsius - RAMP_FROM_C) / (RAMP_TO_C - RAMP_FROM_C);
  let left = (share > 0 ? Math.min(share, 1) : 0) * LENGTH;
  for (const piece of PIECES) {
    if (left <= piece.length) return mix(piece.from, piece.to, left / piece.length);
    left -= piece.length;
  }
  return ANCHORS[ANCHORS.length - 1] ?? [0, 0, 0];
}

/**
 * Stops for a gradient that runs from one temperature to another. Gradients are mixed in sRGB, so
 * a stop is set at least every 40 K to stay on the ramp.
 */
export function rampStops(fromC: number, toC: number): readonly { readonly at: number; readonly colour: string }[] {
  const count = Math.max(1, Math.ceil(Math.abs(toC - fromC) / 40));
  return Array.from({ length: count + 1 }, (_, i) => {
    const at = i / count;
    return { at: round(at, 4), colour: rampColour(fromC + (toC - fromC) * at) };
  });
}

const PIECES = ANCHORS.slice(1).map((to, i) => {
  const from = ANCHORS[i] ?? to;
  return { from, to, length: Math.hypot(to[0] - from[0], to[1] - from[1], to[2] - from[2]) };
});
const LENGTH = PIECES.reduce((sum, piece) => sum + piece.length, 0);

function lab(lightness: number, chroma: number, hueDegrees: number): Lab {
  const hue = (hueDegrees * Math.PI) / 180;
  return [lightness, chroma * Math.cos(hue), chroma * Math.sin(hue)];
}

function mix(from: Lab, to: Lab, share: number): Lab {
  return [
    from[0] + (to[0] - from[0]) * share,
    from[1] + (to[1] - from[1]) * share,
    from[2] + (to[2] - from[2]) * share,
  ];
}

function round(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}
