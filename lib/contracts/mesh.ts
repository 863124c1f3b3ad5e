import { z } from "zod";
import type { Problem } from "@/lib/domain/refusal";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { MESH_UNITS, MESH_UPS, type MeshUnit, type MeshUp } from "@/lib/domain/shape/mesh/turned";

/** A text STL of a phone's scan has 50 MB for 200 000 triangles, a binary one 10 MB. */
export const MOST_MESH_MB = 40;
export const MOST_MESH_BYTES = MOST_MESH_MB * 1024 * 1024;
export const MOST_FILE_NAME = 200;

/** What is said of a mesh when its file is sent. */
export const sendMeshSchema = z.strictObject({
  fileName: z.string().trim().min(1, "The file has no name.").max(MOST_FILE_NAME).regex(/\.(stl|obj)$/i, "The file is neither STL nor OBJ: its name must end in .stl or .obj."),
  fileBytes: z.int().min(1, "The file is empty: it holds 0 bytes.").max(MOST_MESH_BYTES, `The file is larger than the ${MOST_MESH_MB} MB that are read.`),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  unit: z.enum(MESH_UNITS),
  up: z.enum(MESH_UPS),
});

const metres3 = z.tuple([z.number().min(0), z.number().min(0), z.number().min(0)]);
const positive = z.number().positive();
const conduction = { maxM2: positive, meanM2: positive, thickestAtM: metres3 };

export const meshBodySchema: z.ZodType<MeshBody> = z.strictObject({
  ...conduction,
  boxM: metres3,
  volumeM3: positive,
  surfaceM2: positive,
  openFace: z.strictObject(conduction).nullable(),
});

export const MESH_STATES = ["waiting", "reading", "checking", "filling", "solving", "done", "refused"] as const;
export type MeshState = (typeof MESH_STATES)[number];

/** A mesh that was read, as forms and screens need it. */
export type ReadMesh = {
  readonly meshId: string;
  readonly fileName: string;
  readonly unit: MeshUnit;
  readonly up: MeshUp;
  readonly triangles: number;
  readonly body: MeshBody;
};

/** How far the reading of a mesh has come. "interrupted": whoever was reading it has fallen silent. */
export type MeshProgress =
  | { readonly state: Exclude<MeshState, "done" | "refused">; readonly percent: number }
  | { readonly state: "done"; readonly mesh: ReadMesh }
  | { readonly state: "refused" | "interrupted"; readonly problems: readonly Problem[] };
