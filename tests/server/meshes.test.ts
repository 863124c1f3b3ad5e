import { randomUUID } from "node:crypto";
import pg from "pg";
import { afterAll, describe, expect, it } from "vitest";
import type { MeshProgress } from "@/lib/contracts/mesh";
import { unpackDrawing } from "@/lib/contracts/mesh-drawing";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { atInstant, now } from "@/lib/server/clock";
import { planFiring } from "@/lib/domain/firing/plan";
import type { Who } from "@/lib/server/who";
import { binaryStl, objText, textStl } from "@/tests/domain/shape/mesh-files";
import { brickMesh, insideOut, together, withoutTriangle } from "@/tests/domain/shape/sample-meshes";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { receiveMesh } = await import("@/lib/server/mesh/receive-mesh");
const { meshProgress, meshDrawing } = await import("@/lib/server/queries/mesh");
const { sendMesh } = await import("@/lib/server/commands/send-mesh");
const { createCasting } = await import("@/lib/server/commands/create-casting");
const { changeCasting } = await import("@/lib/server/commands/change-casting");
const { readCastingScreen } = await import("@/lib/server/queries/casting");
const { findTime } = await import("@/lib/server/queries/find-time");
const { bookRun } = await import("@/lib/server/commands/book-run");
const { benchSheet } = await import("@/lib/server/queries/bench-sheet");
const { closeDatabase } = await import("@/lib/server/db");
const shed = await makeWorkshop(database.ownerUrl);
const elsewhere = await makeWorkshop(database.ownerUrl);
const owner = new pg.Client({ connectionString: database.ownerUrl });
await owner.connect();

afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

/** Slim, so that it has few cells and is solved in a moment. */
const BRICK = brickMesh(120, 30, 20);
const asked = (name: string, unit: string, up: string) => `http://localhost/api/meshes?${new URLSearchParams({ name, unit, up })}`;

async function sent(content: string | Uint8Array, name = "reef.stl", { unit = "mm", up = "+z", who = shed.member }: { unit?: string; up?: string; who?: Who } = {}) {
  const body = typeof content === "string" ? content : Uint8Array.from(content);
  return receiveMesh(who, new Request(asked(name, unit, up), { method: "POST", body }));
}

async function read(content: string | Uint8Array, name?: string, how?: Parameters<typeof sent>[2]): Promise<{ meshId: string; progress: MeshProgress }> {
  const outcome = await sent(content, name, how);
  if (!outcome.ok) throw new Error(outcome.problems[0].message);
  const { meshId } = outcome.value;
  for (;;) {
    const progress = await meshProgress(how?.who ?? shed.member, meshId);
    if (progress === null) throw new Error("the mesh is not there");
    if (progress.state === "done" || progress.state === "refused") return { meshId, progress };
    expect(progress.state).not.toBe("interrupted");
    await new Promise((soon) => setTimeout(soon, 30));
  }
}

function described(meshId: string): CastingInput {
  return { glass: "lead-crystal-45", piece: { shape: "mesh", meshId }, cooling: "all-round", mould: { wallMm: 35, plasterSilicaWater: [1, 1, 1] }, feeder: { diameterMm: 30, lengthMm: 60 }, stress: "careful" };
}

async function saved(meshId: string, who = shed.member) {
  return createCasting(who, { title: "Reef", input: described(meshId), neededBy: null, requestKey: randomUUID() });
}

describe("a mesh that is sent", () => {
  it.each([
    ["binary STL", binaryStl(BRICK), "reef.stl"],
    ["text STL", textStl(BRICK), "reef.STL"],
    ["OBJ", objText(BRICK), "reef.obj"],
  ] as const)("as %s is read in the background, and what is worked out from it is kept", async (_kind, content, name) => {
    const { meshId, progress } = await read(content, name);
    if (progress.state !== "done") throw new Error(JSON.stringify(progress));
    expect(progress.mesh).toMatchObject({ meshId, fileName: name, unit: "mm", up: "+z", triangles: 12 });
    const { boxM, volumeM3, surfaceM2 } = progress.mesh.body;
    [0.12, 0.03, 0.02].forEach((side, at) => expect(boxM[at]).toBeCloseTo(side, 6));
    expect(volumeM3).toBeCloseTo(0.12 * 0.03 * 0.02, 8);
    expect(surfaceM2).toBeCloseTo(2 * (0.12 * 0.03 + 0.03 * 0.02 + 0.02 * 0.12), 7);
    const { rows } = await owner.query("SELECT sha256, file_bytes FROM mesh WHERE mesh_id = $1", [meshId]);
    expect(rows).toEqual([{ sha256: expect.stringMatching(/^[0-9a-f]{64}$/), file_bytes: content.length }]);
    const drawing = unpackDrawing((await meshDrawing(shed.member, meshId)) ?? new Uint8Array());
    expect(drawing.ok && drawing.value.triangles.length).toBe(36);
    const { rows: record } = await owner.query("SELECT action FROM audit WHERE subject_id = $1 ORDER BY audit_id", [meshId]);
    expect(record.map((row) => row.action)).toEqual(["send-mesh", "read-mesh"]);
  });

  it("is taken in the unit and the way up that were said", async () => {
    const { progress } = await read(binaryStl(brickMesh(12, 3, 2)), "reef.stl", { unit: "cm", up: "+x" });
    const body = progress.state === "done" ? progress.mesh.body : undefined;
    [0.02, 0.03, 0.12].forEach((side, at) => expect(body?.boxM[at]).toBeCloseTo(side, 6));
  });

  it.each([
    ["a hole", binaryStl(withoutTriangle(BRICK)), "reef.stl", /3 open edges around one hole.*mm along x/],
    ["its inside out", binaryStl(insideOut(BRICK)), "reef.stl", /inside out/],
    ["several bodies", binaryStl(together(BRICK, brickMesh(10, 10, 10, [300, 0, 0]))), "reef.stl", /2 separate bodies/],
    ["too few triangles", binaryStl({ corners: BRICK.corners.slice(0, 27) }), "reef.stl", /3 triangles/],
    ["no triangles", "solid reef\nendsolid reef\n", "reef.stl", /no triangles/],
    ["no faces", "o reef\nv 0 0 0\n", "reef.obj", /no triangles/],
    ["words instead of triangles", "# reef\nhello\n".repeat(20), "reef.stl", /no STL file/],
    ["a file cut short", binaryStl(BRICK).slice(0, 400), "reef.stl", /12 triangles but has room for 6/],
    ["corners that are no numbers, in text", textStl(BRICK).replace("vertex 120", "vertex nan"), "reef.stl", /no numbers/],
    ["corners that are no numbers, in binary", binaryStl(brickMesh(120, Infinity, 20)), "reef.stl", /no numbers/],
    ["corners that are no numbers, in OBJ", objText(BRICK).replace("v 120", "v nan"), "reef.obj", /no numbers/],
  ] as const)("with %s is refused with the reason", async (_what, content, name, reason) => {
    const { progress } = await read(content, name);
    expect(progress).toMatchObject({ state: "refused", problems: [{ field: "piece.file", message: expect.stringMatching(reason) }] });
  });

  it("is refused at the door when it is empty, of another kind, or of no known unit", async () => {
    expect(await sent("")).toMatchObject({ ok: false, problems: [{ message: expect.stringContaining("0 bytes") }] });
    expect(await sent("ply", "reef.ply")).toMatchObject({ ok: false, problems: [{ field: "fileName" }] });
    expect(await sent(binaryStl(BRICK), "reef.stl", { unit: "furlong" })).toMatchObject({ ok: false, problems: [{ field: "unit" }] });
  });

  it("is refused one byte above 40 MB, naming both sizes, whatever its length was said to be", async () => {
    const most = 40 * 1024 * 1024;
    const parts = (bytes: number) => new ReadableStream({ start: (stream) => { stream.enqueue(new Uint8Array(most)); if (bytes > most) stream.enqueue(new Uint8Array(bytes - most)); stream.close(); } });
    const send = (bytes: number) => receiveMesh(shed.member, new Request(asked("big.stl", "mm", "+z"), { method: "POST", body: parts(bytes), duplex: "half" } as RequestInit));
    expect(await send(most + 1)).toMatchObject({ ok: false, problems: [{ code: "too-large", message: expect.stringMatching(/40\.1 MB; up to 40 MB/) }] });
    expect(await send(most)).toMatchObject({ ok: true });
  });

  it("is not for an assistant, nor for somebody who is not signed in", async () => {
    expect(await sent(binaryStl(BRICK), "reef.stl", { who: shed.assistant })).toMatchObject({ ok: false, problems: [{ code: "not-allowed" }] });
    expect(await receiveMesh(null, new Request(asked("a.stl", "mm", "+z"), { method: "POST" }))).toMatchObject({ ok: false, problems: [{ code: "not-signed-in" }] });
  });
});

describe("a mesh whose reader was killed", () => {
  it("says so once it has been silent for more than half a minute, not before", async () => {
    const outcome = await sendMesh(shed.member, { fileName: "reef.stl", fileBytes: 684, sha256: "0".repeat(64), unit: "mm", up: "+z" });
    const meshId = outcome.ok ? outcome.value.meshId : "";
    const after = (seconds: number) => atInstant(now().add({ seconds }), () => meshProgress(shed.member, meshId));
    expect(await after(20)).toEqual({ state: "waiting", percent: 0 });
    expect(await after(31)).toMatchObject({ state: "interrupted", problems: [{ message: expect.stringContaining("Send it again") }] });
    expect(await saved(meshId)).toMatchObject({ ok: false, problems: [{ code: "mesh-not-read" }] });
  });
});

describe("a casting with a mesh", () => {
  it("is planned from the stored body, in every place that plans", async () => {
    const { meshId, progress } = await read(binaryStl(BRICK));
    const outcome = await saved(meshId);
    if (!outcome.ok || progress.state !== "done") throw new Error("not saved");
    const { castingId } = outcome.value;
    const plan = planFiring(described(meshId), progress.mesh.body);
    const screen = await readCastingScreen(shed.member, castingId);
    expect(screen?.mesh).toEqual(progress.mesh);
    expect(await benchSheet(shed.member, castingId)).toMatchObject({ mould: { ok: true } });
    const found = await findTime(shed.member, { castingId });
    expect(found?.problems).toEqual([]);
    const run = found?.offers.kilns[0]?.runs[0];
    if (run === undefined || !plan.ok) throw new Error("no run was offered");
    const booked = await bookRun(shed.member, { castingId, kilnId: run.kilnId, kilnFrom: run.kilnFrom, ...(run.steamFrom && { steamFrom: run.steamFrom }), requestKey: randomUUID() });
    expect(booked).toMatchObject({ ok: true });
    const { rows } = await owner.query("SELECT mesh_id, outputs FROM plan WHERE casting_id = $1", [castingId]);
    expect(rows[0].mesh_id).toBe(meshId);
    expect(rows[0].outputs.glass.pieceKg).toBeCloseTo(plan.value.glass.pieceKg, 9);
  });

  it("may be another member's only for the manager, and stays for the owner afterwards", async () => {
    const mine = await read(binaryStl(BRICK));
    expect(await saved(mine.meshId, shed.otherMember)).toMatchObject({ ok: false, problems: [{ code: "not-found", field: "input.piece.meshId" }] });
    const managers = await read(binaryStl(BRICK), "reef.stl", { who: shed.manager });
    const outcome = await saved(mine.meshId);
    const castingId = outcome.ok ? outcome.value.castingId : "";
    const change = (who: Who, meshId: string, version: number) => changeCasting(who, { castingId, title: "Reef", input: described(meshId), neededBy: null, version });
    expect(await change(shed.member, managers.meshId, 1)).toMatchObject({ ok: false, problems: [{ code: "not-found" }] });
    expect(await change(shed.manager, managers.meshId, 1)).toMatchObject({ ok: true });
    expect(await change(shed.member, managers.meshId, 2)).toMatchObject({ ok: true });
    expect(await meshProgress(shed.member, managers.meshId)).toMatchObject({ state: "done" });
  });

  it("is refused where a mesh stands beside another shape, or is too large for any kiln's table", async () => {
    const { meshId } = await read(binaryStl(BRICK), "reef.stl", { unit: "m" });
    expect(await saved(meshId)).toMatchObject({ ok: false, problems: [{ field: "piece.file", message: expect.stringContaining("2 to 3000 mm") }, {}, {}, {}] });
    const beside = { ...described(meshId), piece: { shape: "ball", sizeMm: [80], meshId } };
    expect(await createCasting(shed.member, { title: "Reef", input: beside, neededBy: null, requestKey: randomUUID() })).toMatchObject({ ok: false, problems: [{ code: "not-beside-shape" }] });
  });
});

describe("who may see a mesh", () => {
  it("its sender and the manager; nobody of another workshop, in no state", async () => {
    const { meshId } = await read(binaryStl(BRICK));
    for (const who of [shed.member, shed.manager]) expect(await meshProgress(who, meshId)).toMatchObject({ state: "done" });
    for (const who of [shed.otherMember, elsewhere.member, elsewhere.manager]) {
      expect(await meshProgress(who, meshId)).toBeNull();
      expect(await meshDrawing(who, meshId)).toBeNull();
    }
    expect(await saved(meshId, elsewhere.manager)).toMatchObject({ ok: false, problems: [{ code: "not-found" }] });
  });

  it("the database itself refuses a casting that names another workshop's mesh, and any change of one that was read", async () => {
    const { meshId } = await read(binaryStl(BRICK));
    const { rows } = await owner.query("SELECT member_id FROM member WHERE workshop_id = $1 LIMIT 1", [elsewhere.workshopId]);
    const insert = owner.query("INSERT INTO casting (workshop_id, member_id, title, input) VALUES ($1, $2, 'x', $3)", [elsewhere.workshopId, rows[0].member_id, JSON.stringify({ piece: { shape: "mesh", meshId } })]);
    await expect(insert).rejects.toMatchObject({ code: "23503" });
    await expect(owner.query("UPDATE mesh SET percent = 3 WHERE mesh_id = $1", [meshId])).rejects.toMatchObject({ code: "LB003" });
  });
});

describe("meshes that nothing came of", () => {
  it("are forgotten a week later, when the next one is sent; those of castings stay", async () => {
    const [unused, used] = [await read(binaryStl(BRICK)), await read(binaryStl(BRICK))];
    await saved(used.meshId);
    const next = { fileName: "next.stl", fileBytes: 684, sha256: "0".repeat(64), unit: "mm", up: "+z" };
    const there = async () => (await owner.query("SELECT mesh_id FROM mesh WHERE mesh_id = ANY ($1)", [[unused.meshId, used.meshId]])).rows.map((row) => row.mesh_id).sort();
    await atInstant(now().add({ hours: 7 * 24 - 1 }), () => sendMesh(shed.member, next));
    expect(await there()).toEqual([unused.meshId, used.meshId].sort());
    await atInstant(now().add({ hours: 7 * 24 + 1 }), () => sendMesh(shed.member, next));
    expect(await there()).toEqual([used.meshId]);
  });
});
