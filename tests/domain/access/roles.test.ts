import { describe, expect, it } from "vitest";
import * as fc from "fast-check";
import { can, ROLES, type Capability, type Role } from "@/lib/domain/access/roles";

type Row = readonly [capability: Capability, member: boolean, manager: boolean, assistant: boolean];

// The decision table, typed out a second time on purpose: a slip in one place shows here.
const TABLE: readonly Row[] = [
  ["write-castings", true, true, false],
  ["book-runs", true, true, false],
  ["manage-runs", false, true, false],
  ["settle-clashes", false, true, false],
  ["see-workshop", true, true, true],
  ["see-lifts", true, true, true],
  ["tick-checks", true, true, true],
  ["override-checks", false, true, false],
  ["start-firings", true, true, true],
  ["open-firings", true, true, true],
  ["manage-people", false, true, false],
  ["manage-equipment", false, true, false],
  ["manage-hours", false, true, false],
  ["manage-power", false, true, false],
  ["read-record", false, true, false],
];

// Compiles only while the table names every capability.
const EVERY_CAPABILITY: Readonly<Record<Capability, true>> = {
  "write-castings": true, "book-runs": true, "manage-runs": true, "settle-clashes": true,
  "see-workshop": true, "see-lifts": true, "tick-checks": true, "override-checks": true,
  "start-firings": true, "open-firings": true, "manage-people": true, "manage-equipment": true,
  "manage-hours": true, "manage-power": true, "read-record": true,
};

const capabilities = TABLE.map(([capability]) => capability);

describe("who may do what", () => {
  it("has one row for every capability", () => {
    expect([...capabilities].sort()).toEqual(Object.keys(EVERY_CAPABILITY).sort());
  });

  it.each(TABLE)("%s: member %s, manager %s, assistant %s", (capability, member, manager, assistant) => {
    expect(can(["member"], capability)).toBe(member);
    expect(can(["manager"], capability)).toBe(manager);
    expect(can(["assistant"], capability)).toBe(assistant);
  });

  it.each(capabilities)("refuses %s to somebody without a role", (capability) => {
    expect(can([], capability)).toBe(false);
  });

  it("adds roles up and never lets one take away from another", () => {
    const someRoles = fc.subarray<Role>([...ROLES]);
    fc.assert(
      fc.property(someRoles, fc.constantFrom(...capabilities), (roles, capability) => {
        expect(can(roles, capability)).toBe(roles.some((role) => can([role], capability)));
      }),
    );
  });
});
