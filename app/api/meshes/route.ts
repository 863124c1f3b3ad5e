import { refuse } from "@/lib/domain/refusal";
import { receiveMesh } from "@/lib/server/mesh/receive-mesh";
import { currentWho } from "@/lib/server/session";

/**
 * Takes in a mesh file. A route, not a server action: actions hold all they are sent in memory twice and
 * are kept to a megabyte. A form of another site cannot send it: browsers say where a request comes from.
 */
export async function POST(request: Request): Promise<Response> {
  if (!["same-origin", null].includes(request.headers.get("sec-fetch-site"))) {
    return Response.json(refuse({ code: "other-site", message: "A mesh can only be sent from Lehrbook's own pages." }), { status: 403 });
  }
  const outcome = await receiveMesh(await currentWho(), request);
  return Response.json(outcome, { status: outcome.ok ? 202 : 422 });
}
