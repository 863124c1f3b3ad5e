import { randomUUID } from "node:crypto";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { auditRows } from "@/tests/helpers/audit-rows";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, SAMPLE_EQUIPMENT, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const commands = [
  (await import("@/lib/server/commands/invite-person")).invitePerson,
  (await import("@/lib/server/commands/withdraw-invitation")).withdrawInvitation,
  (await import("@/lib/server/commands/change-roles")).changeRoles,
  (await import("@/lib/server/commands/deactivate-member")).deactivateMember,
  (await import("@/lib/server/commands/reactivate-member")).reactivateMember,
  (await import("@/lib/server/commands/add-equipment")).addEquipment,
  (await import("@/lib/server/commands/change-equipment")).changeEquipment,
  (await import("@/lib/server/commands/retire-equipment")).retireEquipment,
  (await import("@/lib/server/commands/restore-equipment")).restoreEquipment,
  (await import("@/lib/server/commands/begin-outage")).beginOutage,
  (await import("@/lib/server/commands/end-outage")).endOutage,
  (await import("@/lib/server/commands/set-staffed-hours")).setStaffedHours,
  (await import("@/lib/server/commands/add-closure")).addClosure,
  (await import("@/lib/server/commands/remove-closure")).removeClosure,
  (await import("@/lib/server/commands/set-power-limit")).setPowerLimit,
];

let made: MadeWorkshop;
beforeAll(async () => {
  made = await makeWorkshop(database.ownerUrl);
});

afterAll(async () => {
  await closeDatabase();
  await database.drop();
});

/** Input that the manager's call would get past the door with, so that only the role can be what refuses it. */
function inputFor(name: string): unknown {
  const { memberId } = made.otherMember;
  const { equipmentId } = made.northKiln;
  const inputs: Readonly<Record<string, unknown>> = {
    "invite-person": { name: "Liv Holm", email: "liv@saltmarsh.example", roles: ["manager"] },
    "withdraw-invitation": { invitationId: randomUUID() },
    "change-roles": { memberId, roles: ["manager"] },
    "deactivate-member": { memberId },
    "reactivate-member": { memberId },
    "add-equipment": SAMPLE_EQUIPMENT.kiln,
    "change-equipment": { ...SAMPLE_EQUIPMENT.kiln, equipmentId },
    "retire-equipment": { equipmentId, reason: "worn out" },
    "restore-equipment": { equipmentId },
    "begin-outage": { equipmentId, reason: "element broken" },
    "end-outage": { outageId: randomUUID() },
    "set-staffed-hours": { weekly: [] },
    "add-closure": { from: "2030-12-24", reason: "winter" },
    "remove-closure": { closureId: randomUUID() },
    "set-power-limit": { kw: null },
  };
  return inputs[name];
}

describe.each(commands.map((command) => [command.spec.name, command] as const))("%s", (name, command) => {
  const call = command as (who: Parameters<typeof command>[0], raw: unknown) => ReturnType<typeof command>;

  it("is tested here with its own input", () => {
    expect(inputFor(name)).toBeDefined();
  });

  it("is refused to nobody, to a member and to an assistant, and leaves nothing in the record", async () => {
    for (const who of [made.member, made.assistant, { ...made.member, roles: [] }]) {
      expect(await call(who, inputFor(name))).toMatchObject({ ok: false, problems: [{ code: "not-allowed" }] });
    }
    expect(await call(null, inputFor(name))).toMatchObject({ ok: false, problems: [{ code: "not-signed-in" }] });
    expect(await auditRows(database.ownerUrl, made.workshopId)).toEqual([]);
  });

  it("is not refused to the manager for their role", async () => {
    const stranger = await makeWorkshop(database.ownerUrl);
    const outcome = await call(stranger.manager, inputFor(name));
    expect(outcome.ok ? undefined : outcome.problems[0].code).not.toBe("not-allowed");
    expect(await auditRows(database.ownerUrl, made.workshopId)).toEqual([]);
  });
});
