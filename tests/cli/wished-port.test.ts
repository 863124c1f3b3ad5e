import { createServer } from "node:net";
import { describe, expect, it } from "vitest";
import { checkPort, wishedPort } from "@/lib/cli/wished-port.mjs";

describe("where to listen", () => {
  it("is 3000 unless told otherwise", () => {
    expect(wishedPort()).toBe(3000);
  });

  it.each([["1", 1], ["65535", 65_535], ["4100", 4100]])("takes %s", (text, port) => {
    expect(wishedPort(text)).toBe(port);
  });

  it.each(["0", "65536", "", "80a", "-1", "3000.5"])('refuses "%s", naming the range', (text) => {
    expect(() => wishedPort(text)).toThrow(`PORT is "${text}"; it must be a whole number from 1 to 65535.`);
  });

  it("says in one sentence that a port is taken, and how to choose another", async () => {
    const other = createServer();
    await new Promise<void>((done) => other.listen(0, "127.0.0.1", done));
    const address = other.address();
    const port = address !== null && typeof address === "object" ? address.port : 0;
    await expect(checkPort(port, "127.0.0.1")).rejects.toThrow(`Port ${port} is in use by another program`);
    await new Promise((done) => other.close(done));
    await expect(checkPort(port, "127.0.0.1")).resolves.toBeUndefined();
  });
});
