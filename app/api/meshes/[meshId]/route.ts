import { isId } from "@/lib/contracts/is-id";
import { can } from "@/lib/domain/access/roles";
import { meshProgress } from "@/lib/server/queries/mesh";
import { currentWho } from "@/lib/server/session";

type Context = { readonly params: Promise<{ readonly meshId: string }> };

/** How far the reading of a mesh has come. */
export async function GET(_: Request, { params }: Context): Promise<Response> {
  const { meshId } = await params;
  const who = await currentWho();
  if (who === null || !can(who.roles, "write-castings")) return new Response(null, { status: who === null ? 401 : 403 });
  const progress = isId(meshId) ? await meshProgress(who, meshId) : null;
  return progress === null ? new Response(null, { status: 404 }) : Response.json(progress, { headers: { "Cache-Control": "no-store" } });
}
