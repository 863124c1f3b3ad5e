import { isId } from "@/lib/contracts/is-id";
import { can } from "@/lib/domain/access/roles";
import { meshDrawing } from "@/lib/server/queries/mesh";
import { currentWho } from "@/lib/server/session";

type Context = { readonly params: Promise<{ readonly meshId: string }> };

/** The surface of a mesh, packed as lib/contracts/mesh-drawing.ts says. It never changes, so the browser keeps it. */
export async function GET(_: Request, { params }: Context): Promise<Response> {
  const { meshId } = await params;
  const who = await currentWho();
  if (who === null || !can(who.roles, "write-castings")) return new Response(null, { status: who === null ? 401 : 403 });
  const drawing = isId(meshId) ? await meshDrawing(who, meshId) : null;
  if (drawing === null) return new Response(null, { status: 404 });
  return new Response(Uint8Array.from(drawing), { headers: { "Content-Type": "application/octet-stream", "Cache-Control": "private, max-age=31536000, immutable" } });
}
