/** The box around a solid, mm. */
export type Box = {
  readonly shape: "brick" | "cylinder" | "ball";
  readonly width: number;
  readonly depth: number;
  readonly height: number;
  readonly words: string;
};

type Face = { readonly d: string; readonly tone: "top" | "left" | "right" | "round" };
export type SolidPaths = { readonly faces: readonly Face[]; readonly edges: readonly string[] };

const COS = Math.cos(Math.PI / 6);
const SIN = 0.5;
/** In this view a circle on the floor is an ellipse twice as wide as high (√1.5 and √0.5 of its diameter). */
const WIDE = Math.sqrt(1.5);
const FLAT = Math.sqrt(0.5);

/** How many drawing units one millimetre takes, so that the solid fills the room. */
export function drawingScale({ shape, width, depth, height }: Box, roomWide: number, roomHigh: number): number {
  const across = shape === "brick" ? (width + depth) * COS : shape === "cylinder" ? width * WIDE : width;
  const up = shape === "brick" ? (width + depth) * SIN + height : shape === "cylinder" ? width * FLAT + height : height;
  return Math.min(roomWide / across, roomHigh / up);
}

/** The solid in isometric view, its middle at (cx, cy). */
export function solidPaths(box: Box, scale: number, cx: number, cy: number): SolidPaths {
  const [w, d, h] = [box.width * scale, box.depth * scale, box.height * scale];
  if (box.shape === "brick") return brick(w, d, h, cx, cy);
  return box.shape === "cylinder" ? cylinder(w, h, cx, cy) : ball(w, cx, cy);
}

function brick(w: number, d: number, h: number, cx: number, cy: number): SolidPaths {
  const bottom = cy + ((w + d) * SIN + h) / 2;
  const left = cx - ((w + d) * COS) / 2;
  // The near lower corner stands where the two visible sides meet.
  const near = [left + d * COS, bottom] as const;
  const at = (x: number, y: number, z: number) => `${round(near[0] + (x - y) * COS)} ${round(near[1] - (x + y) * SIN - z)}`;
  const quad = (...corners: readonly string[]) => `M${corners.join("L")}Z`;
  return {
    faces: [
      { tone: "left", d: quad(at(0, 0, 0), at(0, d, 0), at(0, d, h), at(0, 0, h)) },
      { tone: "right", d: quad(at(0, 0, 0), at(w, 0, 0), at(w, 0, h), at(0, 0, h)) },
      { tone: "top", d: quad(at(0, 0, h), at(w, 0, h), at(w, d, h), at(0, d, h)) },
    ],
    edges: [],
  };
}

function cylinder(diameter: number, h: number, cx: number, cy: number): SolidPaths {
  const [rx, ry] = [round((diameter * WIDE) / 2), round((diameter * FLAT) / 2)];
  const [top, bottom] = [round(cy - h / 2), round(cy + h / 2)];
  const [l, r] = [round(cx - rx), round(cx + rx)];
  return {
    faces: [
      { tone: "round", d: `M${l} ${top}V${bottom}A${rx} ${ry} 0 0 0 ${r} ${bottom}V${top}Z` },
      { tone: "top", d: `M${l} ${top}A${rx} ${ry} 0 0 0 ${r} ${top}A${rx} ${ry} 0 0 0 ${l} ${top}Z` },
    ],
    edges: [],
  };
}

function ball(diameter: number, cx: number, cy: number): SolidPaths {
  const r = round(diameter / 2);
  const flat = round(r / Math.sqrt(3));
  const circle = `M${round(cx - r)} ${cy}A${r} ${r} 0 0 0 ${round(cx + r)} ${cy}A${r} ${r} 0 0 0 ${round(cx - r)} ${cy}Z`;
  return { faces: [{ tone: "round", d: circle }], edges: [`M${round(cx - r)} ${cy}A${r} ${flat} 0 0 0 ${round(cx + r)} ${cy}`] };
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
