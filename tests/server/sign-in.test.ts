import pg from "pg";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, SCENARIO_PASSWORD, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { signIn, MAX_FAILURES_PER_ADDRESS, MAX_FAILURES_PER_EMAIL } = await import("@/lib/server/sign-in");
const owner = new pg.Client({ connectionString: database.ownerUrl });
await owner.connect();

afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

let made: MadeWorkshop;
beforeEach(async () => {
  made = await makeWorkshop(database.ownerUrl);
});

async function failures(count: number, email: string, address = "unknown", minutesAgo = 1): Promise<void> {
  await owner.query(
    "INSERT INTO sign_in_attempt (email, address, at, succeeded) SELECT $1, $2, now() - make_interval(mins => $3), false FROM generate_series(1, $4)",
    [email, address, minutesAgo, count],
  );
}

const right = (address = "unknown") => signIn(made.member.email, SCENARIO_PASSWORD, address);
const SIGNED_IN = { sessionVersion: 1 };

describe("signing in", () => {
  it("takes the address in any case and with spaces around it, as people type it", async () => {
    expect(await signIn(` ${made.member.email.toUpperCase()} `, SCENARIO_PASSWORD, "unknown")).toMatchObject({ personId: made.member.personId });
  });

  it("does not take a wrong password, another's password or an address nobody has", async () => {
    expect(await signIn(made.member.email, "not the password", "unknown")).toBeUndefined();
    expect(await signIn(made.member.email, "", "unknown")).toBeUndefined();
    expect(await signIn("nobody@saltmarsh.example", SCENARIO_PASSWORD, "unknown")).toBeUndefined();
  });
});

describe("the limit on failed attempts for one address of mail", () => {
  it("is not reached one below it, and a success starts the count anew", async () => {
    await failures(MAX_FAILURES_PER_EMAIL - 1, made.member.email);
    expect(await right()).toMatchObject(SIGNED_IN);
    expect(await signIn(made.member.email, "wrong again", "unknown")).toBeUndefined();
    expect(await right()).toMatchObject(SIGNED_IN);
  });

  it("is reached at it: then even the right password is refused, for that person only", async () => {
    await failures(MAX_FAILURES_PER_EMAIL, made.member.email);
    expect(await right()).toBe("limited");
    expect(await right()).toBe("limited");
    expect(await signIn(made.manager.email, SCENARIO_PASSWORD, "unknown")).toMatchObject(SIGNED_IN);
  });

  it("is over when the failures are older than the window", async () => {
    await failures(MAX_FAILURES_PER_EMAIL + 3, made.member.email, "unknown", 16);
    expect(await right()).toMatchObject(SIGNED_IN);
  });

  it("holds for an address nobody has as well, so that it tells nothing", async () => {
    const nobody = `nobody.${made.workshopId}@saltmarsh.example`;
    await failures(MAX_FAILURES_PER_EMAIL, nobody);
    expect(await signIn(nobody, "whatever it is", "unknown")).toBe("limited");
  });

  it("counts attempts sent at the same instant", async () => {
    const guesses = Array.from({ length: 20 }, (_, i) => signIn(made.member.email, `guess number ${i}`, "unknown"));
    const answers = await Promise.all(guesses);
    expect(answers.filter((answer) => answer === undefined).length).toBeLessThanOrEqual(MAX_FAILURES_PER_EMAIL);
    expect(answers.some((answer) => answer === "limited")).toBe(true);
  });
});

describe("the limit on failed attempts from one place", () => {
  it("is not reached one below it and is at it, whoever is tried", async () => {
    await failures(MAX_FAILURES_PER_ADDRESS - 1, "various@saltmarsh.example", "192.0.2.7");
    expect(await right("192.0.2.7")).toMatchObject(SIGNED_IN);
    await failures(1, "another@saltmarsh.example", "192.0.2.7");
    expect(await right("192.0.2.7")).toBe("limited");
    expect(await right("192.0.2.8")).toMatchObject(SIGNED_IN);
  });
});
