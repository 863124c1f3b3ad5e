import NextAuth from "next-auth";
import type { NextRequest } from "next/server";
import { authOptions } from "@/lib/server/auth-options";

type Context = { params: Promise<{ nextauth: string[] }> };

// The options are made per request: the environment is read when it is needed, not while building.
async function handler(request: NextRequest, context: Context): Promise<Response> {
  return NextAuth(request, { params: await context.params }, authOptions()) as Promise<Response>;
}

export { handler as GET, handler as POST };
