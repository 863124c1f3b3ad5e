const ROWS = 225;
const SIDE_MM = 60;

/** A figure like a phone's scan of one, as binary STL: a lumpy ball of 202 500 triangles, 120 mm tall. */
export function scan(): Uint8Array {
  const corners: (readonly [number, number, number])[] = [];
  for (let row = 0; row < ROWS; row += 1) {
    for (let column = 0; column < 2 * ROWS; column += 1) {
      const [a, b, c, d] = [at(row, column), at(row, column + 1), at(row + 1, column), at(row + 1, column + 1)];
      corners.push(a, c, b, b, c, d);
    }
  }
  const triangles = corners.length / 3;
  const view = new DataView(new ArrayBuffer(84 + 50 * triangles));
  view.setUint32(80, triangles, true);
  corners.forEach((corner, i) => corner.forEach((value, axis) => view.setFloat32(84 + 50 * Math.floor(i / 3) + 12 + 12 * (i % 3) + 4 * axis, value, true)));
  return new Uint8Array(view.buffer);
}

function at(row: number, column: number): readonly [number, number, number] {
  const polar = (Math.PI * row) / ROWS;
  const around = (Math.PI * (column % (2 * ROWS))) / ROWS;
  const flat = row === 0 || row === ROWS ? 0 : Math.sin(polar);
  const lump = SIDE_MM * (1 + 0.2 * flat ** 2 * Math.sin(3 * around));
  return [lump * flat * Math.cos(around), lump * flat * Math.sin(around), lump * Math.cos(polar)];
}
