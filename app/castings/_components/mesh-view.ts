/** From where a mesh is looked at: around the upright axis from the front, and above the level; radians. */
export type MeshView = { readonly around: number; readonly up: number };

/** Over the near right corner, as the other pieces are drawn. */
export const FIRST_VIEW: MeshView = { around: Math.PI / 5, up: Math.PI / 7 };

const STEP = Math.PI / 12;
/** Short of straight above and below, where there would be no way up. */
const STEEPEST = Math.PI / 2 - 0.01;

export const TURN_KEYS = {
  ArrowLeft: { around: -STEP, up: 0 },
  ArrowRight: { around: STEP, up: 0 },
  ArrowUp: { around: 0, up: STEP },
  ArrowDown: { around: 0, up: -STEP },
  Home: "first",
} as const satisfies Readonly<Record<string, MeshView | "first">>;

export function turnedBy(view: MeshView, by: MeshView): MeshView {
  const around = (view.around + by.around) % (2 * Math.PI);
  return { around, up: Math.min(STEEPEST, Math.max(-STEEPEST, view.up + by.up)) };
}

type Point = readonly [number, number, number];

/** Towards the eye, to its right and upwards, in the mesh's own directions. */
export function axesOf({ around, up }: MeshView): { readonly towards: Point; readonly right: Point; readonly upward: Point } {
  const [s, c] = [Math.sin(around), Math.cos(around)];
  const [su, cu] = [Math.sin(up), Math.cos(up)];
  return { towards: [s * cu, -c * cu, su], right: [c, s, 0], upward: [-s * su, c * su, cu] };
}
