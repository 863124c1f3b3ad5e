import type { NextAuthOptions } from "next-auth";
import CredentialsProvider from "next-auth/providers/credentials";
import { z } from "zod";
import { emailSchema } from "@/lib/contracts/email";
import { givenPasswordSchema } from "@/lib/contracts/password";
import { requestAddress } from "@/lib/server/accounts/request-address";
import { env } from "@/lib/server/env";
import { logFault } from "@/lib/server/log";
import { ATTEMPT_WINDOW_MINUTES, signIn } from "@/lib/server/sign-in";

const Given = z.object({ email: emailSchema, password: givenPasswordSchema });

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
          const parsed = Given.safeParse(given);
          if (!parsed.success) return null;
          const { email, password } = parsed.data;
          const person = await signIn(email, password, requestAddress(request.headers?.["x-forwarded-for"])).catch(hideFault);
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

/** What is thrown here ends up in an address; the fault itself stays in the log. */
function hideFault(error: unknown): never {
  throw new Error(`fault:${logFault("sign-in", error)}`);
}
