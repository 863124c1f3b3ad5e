import { rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { root } from "@/lib/cli/bootstrap.mjs";
import { keepJobsDone } from "@/lib/cli/start/job-worker";
import { expect, test } from "./test";
import { describeSmall } from "./describe";
import { look } from "./look";
import { otherBrowser } from "./people";
import { castingOf, rows } from "./rows";

// It does all the jobs of the whole database, so it runs when nobody else does (see the project "worker").
let stop: (() => Promise<void>) | undefined;
const mailFolder = path.join(tmpdir(), `lehrbook-e2e-mail-${process.pid}`);
test.beforeAll(() => {
  const its = (name: string) => process.env[`LEHRBOOK_E2E_${name}`];
  const environment = {
    ...process.env, DATABASE_URL: its("DATABASE_URL"), APP_DATABASE_URL: its("APP_DATABASE_URL"), AUTH_SECRET: its("AUTH_SECRET"),
    LEHRBOOK_URL: its("URL"), LEHRBOOK_CLOCK_START: its("CLOCK_START"), LEHRBOOK_MAIL_FOLDER: mailFolder,
  };
  stop = keepJobsDone({ root, environment, onLine: (line) => process.stderr.write(`${line}\n`) });
});
test.afterAll(async () => {
  await stop?.();
  await rm(mailFolder, { recursive: true, force: true });
});

test("a member asks, is offered time by what does the jobs, declines one casting's and accepts the other's @worker", async ({ browser, page }, info) => {
  const odile = await otherBrowser(browser, "odile", page);
  const main = odile.getByRole("main");
  const ask = (title: string) => odile.locator("[data-ask]").filter({ has: odile.getByRole("link", { name: title, exact: true }) });
  const titles = ["Offered and taken", "Offered and left"] as const;
  for (const title of titles) {
    await describeSmall(odile, title);
    await odile.goto(`/castings/${await castingOf(title)}/find-time?notBefore=2027-10-04`);
    await odile.getByLabel("From", { exact: true }).fill("2027-10-04");
    await odile.getByLabel("Ready by").fill("2027-12-20");
    await odile.getByRole("button", { name: "Ask for time" }).click();
    await expect(main).toContainText(/Your ask|Held for you|only held/);
  }
  await expect(async () => {
    await odile.goto("/asks");
    for (const title of titles) await expect(ask(title)).toContainText("is held for you until tomorrow", { timeout: 1_000 });
  }).toPass({ timeout: 60_000 });
  await look(odile, "/asks", "/asks with offers", info);

  await odile.goto("/");
  for (const title of titles) await expect(main.getByText(`offered to you for ${title}, ready`)).toHaveCount(1);
  await expect(main.getByRole("link", { name: "Confirm or let go" })).toHaveCount(titles.length);
  await expect(main).not.toContainText("then it lapses");
  await odile.goto("/notices");
  for (const title of titles) await expect(main.getByText(`offered to you for ${title}, ready`)).toHaveCount(1);
  await odile.goto("/asks");
  await ask(titles[1]).getByRole("button", { name: "Decline" }).click();
  await odile.getByRole("dialog").getByRole("button", { name: "Decline it" }).click();
  await expect(ask(titles[1])).toContainText("One time offered before and not taken");
  await ask(titles[0]).getByRole("button", { name: "Accept" }).click();
  await odile.getByRole("dialog").getByRole("button", { name: "Accept it" }).click();
  await expect(ask(titles[0])).toHaveCount(0);
  const state = "SELECT a.status AS ask, f.status AS firing FROM ask a JOIN casting c USING (workshop_id, casting_id) JOIN firing f ON f.workshop_id = a.workshop_id AND f.ask_id = a.ask_id WHERE c.title = $1 ORDER BY f.created_at";
  expect(await rows(state, titles[0])).toEqual([{ ask: "met", firing: "planned" }]);
  expect((await rows(state, titles[1]))[0]).toEqual({ ask: "open", firing: "lapsed" });

  await odile.goto("/mail");
  await expect(main).toContainText("Kiln time is offered to you");
  await expect(main).not.toContainText("Waits to be written");
});
