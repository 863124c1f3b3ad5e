import { createHash } from "node:crypto";
import type { Page } from "@playwright/test";
import { expect, test } from "./test";
import type { TriangleMesh } from "@/lib/domain/shape/mesh/triangle-mesh";
import { look } from "./look";
import { signInAs } from "./people";
import { castingOf, rows } from "./rows";
import { binaryStl } from "@/tests/domain/shape/mesh-files";
import { ballMesh, brickMesh, withoutTriangle } from "@/tests/domain/shape/sample-meshes";

const BALL = ballMesh(80, 20);
const file = (mesh: TriangleMesh) => ({ name: "pebble.stl", mimeType: "model/stl", buffer: Buffer.from(binaryStl(mesh)) });

/** What is drawn on the canvas, as a number short enough to read in a failure. */
async function drawn(page: Page): Promise<string> {
  const picture = await page.getByRole("region", { name: "The mesh as it was read" }).locator("canvas").evaluate((canvas: HTMLCanvasElement) => canvas.toDataURL());
  return createHash("sha256").update(picture).digest("hex").slice(0, 12);
}

test("a scan is read, drawn, planned and saved, and a refusal loses nothing @phone", async ({ page }, info) => {
  const title = `Pebble ${info.project.name}`;
  await signInAs(page, "mette");
  await page.goto("/castings/new");
  await page.getByRole("textbox", { name: "Title" }).fill(title);
  await page.getByLabel("Which glass").selectOption({ label: "Lead crystal, 45 % lead oxide" });
  await page.getByRole("radio", { name: "Scanned or modelled mesh" }).check();

  // A file says nothing of its unit, so it is asked for; then its hole is found, and all that was typed stays.
  await page.getByLabel("Mesh file").setInputFiles(file(withoutTriangle(brickMesh(80, 60, 40))));
  await expect(page.getByText("Say in which unit it was drawn")).toBeVisible();
  await page.getByRole("radio", { name: "millimetres" }).check();
  await expect(page.getByRole("alert").filter({ hasText: /3 open edges around one hole.*mm along x/ })).toBeVisible();
  await expect(page.getByRole("textbox", { name: "Title" })).toHaveValue(title);
  await expect(page.getByLabel("Which glass")).toHaveValue("lead-crystal-45");

  // The mended file is sent by itself, since the unit is known.
  await page.getByLabel("Mesh file").setInputFiles(file(BALL));
  await expect(page.getByRole("progressbar", { name: "Reading pebble.stl" })).toBeVisible();
  const facts = page.getByRole("region", { name: "The mesh as it was read" });
  await expect(facts).toContainText("80 × 80 × 80 mm", { timeout: 60_000 });
  await expect(facts).toContainText(/Cools like a slab of\s*46 mm/);
  await expect(facts).toContainText(/Thickest 39|Thickest 40/);

  // In inches it would be two metres wide, and is asked back; in millimetres again it stands.
  await page.getByRole("radio", { name: "inches" }).check();
  await expect(facts).toContainText(/very large for a casting.*In millimetres it would be 80 mm/, { timeout: 60_000 });
  await page.getByRole("radio", { name: "millimetres" }).check();
  await expect(facts).toContainText("80 × 80 × 80 mm", { timeout: 60_000 });

  // The drawing turns by keyboard and by button.
  const drawing = facts.getByRole("group", { name: /Arrow keys turn it/ });
  await expect(drawing).toBeVisible();
  const first = await drawn(page);
  await drawing.focus();
  await page.keyboard.press("ArrowRight");
  await expect.poll(() => drawn(page)).not.toBe(first);
  await facts.getByRole("button", { name: "As at first" }).click();
  await expect.poll(() => drawn(page)).toBe(first);

  await expect(page.getByRole("region", { name: "The answer" })).toContainText("kiln-weeks");
  await page.getByRole("button", { name: "Save the casting" }).click();
  await page.waitForURL(/\/castings\/[0-9a-f-]{36}/);
  await expect(page.getByRole("region", { name: "The mesh as it was read" })).toContainText("pebble.stl");
  await expect(page.getByRole("group", { name: /Arrow keys turn it/ })).toBeVisible();
  const named = await rows("SELECT 1 FROM casting JOIN mesh USING (workshop_id, mesh_id) WHERE casting_id = $1 AND state = 'done'", await castingOf(title));
  expect(named).toHaveLength(1);

  for (const colorScheme of ["light", "dark"] as const) {
    await page.emulateMedia({ colorScheme });
    await look(page, new URL(page.url()).pathname, "casting with a mesh", info);
  }

  // A browser that cannot turn it shows a still drawing with the place in words.
  await page.addInitScript(() => {
    const own = HTMLCanvasElement.prototype.getContext;
    HTMLCanvasElement.prototype.getContext = function (this: HTMLCanvasElement, kind: string, ...rest: unknown[]) {
      return kind === "webgl2" ? null : Reflect.apply(own, this, [kind, ...rest]);
    } as typeof own;
  });
  await page.reload();
  await expect(page.getByRole("img", { name: /The mesh, 80 × 80 × 80 mm, thickest 39|thickest 40/ })).toBeVisible();
});
