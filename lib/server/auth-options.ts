import type { NextAuthOptions } from "next-auth";
import CredentialsProvider from "next-auth/providers/credentials";
import { env } from "@/lib/server/env";
import { ATTEMPT_WINDOW_MINUTES, signIn } from "@/lib/server/sign-in";

const EIGHT_HOURS = 8 * 3600;
const THIRTY_DAYS = 30 * 24 * 3600;

/** Password sign-in; the token carries a session version so that a person's sessions can be revoked. */
export function authOptions(): NextAuthOptions {
  return {
    secret: env().authSecret,
    session: { strategy: "jwt", maxAge: THIRTY_DAYS, updateAge: EIGHT_HOURS },
    pages: { signIn: "/sign-in", error: "/sign-in" },
    logger: { error: () => undefined, warn: () => undefined, debug: () => undefined },
    providers: [
      CredentialsProvider({
        name: "password",
        credentials: { email: { type: "email" }, password: { type: "password" } },
        authorize: async (given, request) => {
          const { email, password } = given ?? {};
          if (typeof email !== "string" || typeof password !== "string") return null;
          const person = await signIn(email, password, addressOf(request.headers));
          if (person === "limited") throw new Error(`limited:${ATTEMPT_WINDOW_MINUTES}`);
          if (person === undefined) return null;
          return { id: person.personId, email: person.email, sessionVersion: person.sessionVersion };
        },
      }),
    ],
    callbacks: {
      jwt: ({ token, user }) => {
        if (user && "sessionVersion" in user) return { ...token, personId: user.id, sessionVersion: user.sessionVersion };
        return token;
      },
      session: ({ session, token }) => ({ ...session, personId: token.personId, sessionVersion: token.sessionVersion }),
    },
  };
}

/** Only a proxy that we were told to trust can say where a request came from. */
function addressOf(headers: Readonly<Record<string, unknown>> | undefined): string {
  const forwarded = headers?.["x-forwarded-for"];
  if (!env().trustProxy || typeof forwarded !== "string") return "unknown";
  return forwarded.split(",").at(-1)?.trim() ?? "unknown";
}
