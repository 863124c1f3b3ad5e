import { rampColour, rampStops } from "./temperature-ramp";

type RampGradientProps = {
  readonly id: string;
  readonly fromC: number;
  readonly toC: number;
  /** From below to above instead of from left to right. */
  readonly upright?: boolean | undefined;
};

/** The ramp between two temperatures, for the `<defs>` of a drawing. */
export function RampGradient({ id, fromC, toC, upright = false }: RampGradientProps) {
  const direction = upright ? { x1: 0, x2: 0, y1: 1, y2: 0 } : { x1: 0, x2: 1, y1: 0, y2: 0 };
  return (
    <linearGradient id={id} {...direction}>
      {rampStops(fromC, toC).map((stop) => (
        <stop key={stop.at} offset={stop.at} stopColor={stop.colour} />
      ))}
    </linearGradient>
  );
}

/** A fill for a stretch of a program: a plain colour while it holds, otherwise the gradient with this id. */
export function rampFill(id: string, fromC: number, toC: number): string {
  return Math.abs(toC - fromC) < 1 ? rampColour(toC) : `url(#${id})`;
}
