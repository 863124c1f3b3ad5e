import { Validator } from "@seriousme/openapi-schema-validator";
import { describe, expect, it } from "vitest";
import { openApiDocument } from "@/lib/contracts/api/openapi";
import { OPERATIONS } from "@/lib/contracts/api/operations";
import { faultsAgainst, objectsIn, readPrinted } from "@/tests/helpers/api/printed";

const text = JSON.stringify(openApiDocument());
const copy = (): Record<string, unknown> => JSON.parse(text);
const printed = readPrinted(copy());
const described = Object.entries(printed.paths).flatMap(([path, methods]) => Object.entries(methods).map(([method, operation]) => ({ path, method, ...operation })));

describe("the printed description of the HTTP interface", () => {
  it("is a valid OpenAPI 3.1 document, by an independent validator", async () => {
    const validator = new Validator();
    expect(await validator.validate(copy())).toEqual({ valid: true });
    expect(validator.version).toBe("3.1");
    expect(JSON.stringify(validator.resolveRefs())).not.toContain("#/components");
  });

  it.each([["without a title", { info: { version: "1" } }], ["with paths that are none", { paths: [] }], ["of another kind", { openapi: "9.9.9" }]])("is found wanting by it %s", async (_what, spoilt) => {
    expect((await new Validator().validate({ ...copy(), ...spoilt })).valid).toBe(false);
  });

  it("has schemas that are valid JSON schema 2020-12, by another", () => {
    const faults = faultsAgainst(printed);
    for (const schema of Object.values(printed.components.schemas)) expect(() => faults(schema, null)).not.toThrow();
    expect(() => faults({ type: "thing" }, null)).toThrow();
  });

  it("describes each operation once, under its own name, with its scope and its refusals", () => {
    expect(new Set(described.map(({ operationId }) => operationId)).size).toBe(described.length);
    for (const { id, path, method, scope } of Object.values(OPERATIONS)) {
      const found = described.find(({ operationId }) => operationId === id);
      expect({ id, path: found?.path, method: found?.method, security: found?.security }).toEqual({ id, path, method, security: [{ token: [scope] }] });
      expect(Object.keys(found?.responses ?? {})).toEqual(expect.arrayContaining(["401", "403", "429", "500"]));
    }
  });

  it("names every part of an address as a parameter", () => {
    for (const { path, parameters } of described) {
      const inAddress = [...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => name);
      expect(parameters.filter((one) => one.in === "path").map(({ name, required }) => ({ name, required }))).toEqual(inAddress.map((name) => ({ name, required: true })));
    }
  });

  it("takes no unknown key in a body, and leaves room for more keys in an answer", () => {
    const parts = (name: string) => objectsIn(printed.components.schemas[name], name).filter(([, one]) => one["type"] === "object" && "properties" in one);
    const closed = (name: string, wanted: boolean) => parts(name).filter(([, one]) => (one["additionalProperties"] === false) !== wanted).map(([at]) => at);
    for (const name of ["CastingInput", "NewCasting", "BookRun", "MoveRun", "CancelRun"]) expect(closed(name, true)).toEqual([]);
    for (const name of ["FiringPlan", "Run", "BookingList", "OfferedTimes", "ProblemDocument"]) expect(closed(name, false)).toEqual([]);
  });

  it("has no reference that leads nowhere", () => {
    const references = objectsIn(printed).flatMap(([, one]) => (typeof one["$ref"] === "string" ? [one["$ref"]] : []));
    expect(references.length).toBeGreaterThan(20);
    const known = Object.keys(printed.components.schemas).map((name) => `#/components/schemas/${name}`);
    expect(references.filter((one) => !known.includes(one))).toEqual([]);
  });
});
