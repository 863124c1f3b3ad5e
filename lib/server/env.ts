import { z } from "zod";
import { appDatabaseUrl } from "@/lib/server/app-database-url";

/** Every variable the application reads, checked once; nothing else reads the environment. */
const Variables = z.object({
  DATABASE_URL: z.string().startsWith("postgres").optional(),
  APP_DATABASE_URL: z.string().startsWith("postgres").optional(),
  AUTH_SECRET: z.string().min(32, "AUTH_SECRET must be at least 32 characters long"),
  LEHRBOOK_URL: z.url().default("http://localhost:3000"),
  LEHRBOOK_TRUST_PROXY: z.enum(["0", "1"]).default("0"),
  /** Tests only: the clock starts at this instant when the process starts. */
  LEHRBOOK_CLOCK_START: z.iso.datetime({ offset: true }).optional(),
  /** "1" shows the demo sign-ins on the sign-in page. */
  LEHRBOOK_DEMO: z.enum(["0", "1"]).default("0"),
  LEHRBOOK_SMTP_URL: z.string().startsWith("smtp").optional(),
  LEHRBOOK_MAIL_FROM: z.string().default("Lehrbook <lehrbook@localhost>"),
  /** Where mails are written while no SMTP server is set. */
  LEHRBOOK_MAIL_FOLDER: z.string().default(".lehrbook/mail"),
  /** "1" while developing and with the embedded database: what was written there can be read on a page. */
  LEHRBOOK_MAIL_PAGE: z.enum(["0", "1"]).default("0"),
  /** Requests a minute that each script's token may make in the long run. */
  LEHRBOOK_API_PER_MINUTE: z.coerce.number().min(1).max(1_000_000).default(120),
  DATABASE_POOL: z.coerce.number().int().min(1).max(100).default(10),
  NODE_ENV: z.string().default("development"),
});

export type Env = {
  readonly appDatabaseUrl: string;
  readonly authSecret: string;
  readonly publicUrl: string;
  readonly trustProxy: boolean;
  readonly clockStart: string | undefined;
  readonly demo: boolean;
  readonly smtpUrl: string | undefined;
  readonly mailFrom: string;
  readonly mailFolder: string;
  readonly mailPage: boolean;
  readonly pool: number;
  readonly apiPerMinute: number;
};

let cached: Env | undefined;

/** @throws when a variable is missing or malformed, naming it; this stops the server at its first request. */
export function env(): Env {
  cached ??= readEnv(process.env);
  return cached;
}

/** For whoever has changed the environment: the next to ask reads it anew. */
export function forgetEnv(): void {
  cached = undefined;
}

export function readEnv(source: Readonly<Record<string, string | undefined>>): Env {
  const parsed = Variables.safeParse(source);
  if (!parsed.success) {
    throw new Error(parsed.error.issues.map((i) => `${i.path.join(".")}: ${i.message}`).join("; "));
  }
  const v = parsed.data;
  const url = v.APP_DATABASE_URL ?? (v.DATABASE_URL && appDatabaseUrl(v.DATABASE_URL, v.AUTH_SECRET));
  if (!url) throw new Error("DATABASE_URL or APP_DATABASE_URL must be set");
  return {
    appDatabaseUrl: url,
    authSecret: v.AUTH_SECRET,
    publicUrl: v.LEHRBOOK_URL,
    trustProxy: v.LEHRBOOK_TRUST_PROXY === "1",
    clockStart: v.LEHRBOOK_CLOCK_START,
    demo: v.LEHRBOOK_DEMO === "1",
    smtpUrl: v.LEHRBOOK_SMTP_URL,
    mailFrom: v.LEHRBOOK_MAIL_FROM,
    mailFolder: v.LEHRBOOK_MAIL_FOLDER,
    mailPage: v.LEHRBOOK_MAIL_PAGE === "1" && v.LEHRBOOK_SMTP_URL === undefined,
    pool: v.DATABASE_POOL,
    apiPerMinute: v.LEHRBOOK_API_PER_MINUTE,
  };
}
