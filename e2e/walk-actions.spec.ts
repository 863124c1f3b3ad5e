import { builtActions, send, type BuiltAction } from "./hand-made";
import { filled } from "./pages";
import { ACCOUNT_ACTIONS, STEPS, type Step } from "./walked-steps";
import { expect, test } from "./test";
import { fingerprint, idIn, lastAct, walkedWorkshop, WALKED_NAME, type Person, type WalkedWorkshop } from "./walked-workshop";

/** Ids to post the request from a page of its own; the page is not what is asked for. */
async function addressOf(walked: WalkedWorkshop, { page }: BuiltAction): Promise<string> {
  const first = (table: string) => idIn(walked, `SELECT ${table}_id AS id FROM ${table} WHERE workshop_id = $1 ORDER BY 1 LIMIT 1`);
  const none = "00000000-0000-4000-8000-000000000000";
  return filled(page === "" ? "/" : page, { castingId: (await first("casting")) || none, firingId: (await first("firing")) || none, joiningId: (await first("joining")) || none, settlementId: (await first("settlement")) || none, equipmentId: await first("equipment"), token: "a-token-that-is-none" });
}

/** What must not come back to whoever is not of this workshop. */
function wordsOf({ shed }: WalkedWorkshop): readonly string[] {
  return [WALKED_NAME, shed.member.email, shed.otherMember.email, shed.assistant.email, shed.manager.email];
}

/** Refused for who asks, by role or as something that is not there, and not for how a field is filled. */
const NOT_YOURS = /^(not-allowed: (?!\w+ is )|not-found: )/;

async function refuse(walked: WalkedWorkshop, built: BuiltAction, { action, payload }: Step, person: Person): Promise<void> {
  const before = await fingerprint(walked);
  const answer = await send(walked.browsers[person], await addressOf(walked, built), built.id, await payload(walked));
  const leak = person === "nobody" || person === "stranger" ? wordsOf(walked).filter((word) => answer.body.includes(word)) : [];
  expect({ action, person, leak, crashed: answer.status >= 500, changed: (await fingerprint(walked)) !== before }).toEqual({ action, person, leak: [], crashed: false, changed: false });
  // A stranger's request may well do something in the stranger's own workshop.
  const [problem] = answer.problems;
  if (person === "nobody") expect({ action, problem }).toEqual({ action, problem: "not-signed-in: Sign in first." });
  else if (person !== "stranger") expect({ action, person, problem }).toEqual({ action, person, problem: expect.stringMatching(NOT_YOURS) });
}

test("every action changes only what its sender may change, whatever is sent by hand", async ({ browser }) => {
  test.slow();
  const actions = new Map(builtActions().map((built) => [built.name, built]));
  // A new action has to be walked too.
  expect([...new Set([...STEPS.map(({ action }) => action), ...Object.keys(ACCOUNT_ACTIONS)])].sort()).toEqual([...actions.keys()].sort());
  const walked = await walkedWorkshop(browser);
  for (const step of STEPS) {
    const built = actions.get(step.action);
    if (built === undefined) throw new Error(`no ${step.action}`);
    await step.before?.(walked);
    for (const person of ["nobody", "stranger", ...step.refused] as const) await refuse(walked, built, step, person);
    const before = await lastAct(walked, step.by);
    const answer = await send(walked.browsers[step.by], await addressOf(walked, built), built.id, await step.payload(walked));
    const { action } = step;
    expect({ action, done: (await lastAct(walked, step.by)) !== before, problems: answer.problems, crashed: answer.status >= 500 }).toEqual({ action, done: true, problems: [], crashed: false });
  }
});

test("the actions of accounts let nobody into a workshop", async ({ browser }) => {
  const walked = await walkedWorkshop(browser);
  const before = await fingerprint(walked);
  for (const built of builtActions().filter(({ name }) => name in ACCOUNT_ACTIONS).sort((a, b) => b.name.localeCompare(a.name))) {
    const payload = await ACCOUNT_ACTIONS[built.name]?.(walked);
    if (payload === undefined) throw new Error(`no ${built.name}`);
    for (const person of ["nobody", "stranger"] as const) {
      const answer = await send(walked.browsers[person], await addressOf(walked, built), built.id, payload);
      const leak = wordsOf(walked).filter((word) => answer.body.includes(word));
      expect({ name: built.name, person, leak, crashed: answer.status >= 500, changed: (await fingerprint(walked)) !== before }).toEqual({ name: built.name, person, leak: [], crashed: false, changed: false });
    }
  }
});
