import os from "node:os";
import { describe, expect, it } from "vitest";
import { addressOf, type HostRules } from "@/lib/cli/hosts";

const LOCAL: HostRules = { listen: "127.0.0.1", tls: false };
const BEHIND_PROXY: HostRules = {
  ...LOCAL,
  publicUrl: "https://board.example.org",
  hosts: ["ward.example.org:8443", "spare"],
};

describe("the hosts that are answered for", () => {
  it.each([
    ["localhost:4400", { host: "localhost:4400", protocol: "http" }],
    ["127.0.0.1:9", { host: "127.0.0.1:9", protocol: "http" }],
    ["[::1]:4400", { host: "[::1]:4400", protocol: "http" }],
    ["LOCALHOST", { host: "localhost", protocol: "http" }],
  ])("the loopback as %s", (host, address) => {
    expect(addressOf(host, LOCAL)).toMatchObject(address);
  });

  it.each([
    undefined,
    "",
    "evil.example",
    "localhost.evil.example",
    "127.0.0.1.evil.example",
    "localhost@evil.example",
    "localhost:4400/x",
    "localhost, evil.example",
    "localhost:999999",
    "board.example.org",
  ])("never %s", (host) => {
    expect(addressOf(host, LOCAL)).toBeUndefined();
  });

  it("the public address, with its own protocol", () => {
    expect(addressOf("board.example.org", BEHIND_PROXY)).toEqual({
      host: "board.example.org",
      protocol: "https",
      published: true,
    });
    expect(addressOf("board.example.org:444", BEHIND_PROXY)).toBeUndefined();
  });

  it("further names: with their port if one is given, with any if not", () => {
    expect(addressOf("ward.example.org:8443", BEHIND_PROXY)?.host).toBe("ward.example.org:8443");
    expect(addressOf("ward.example.org", BEHIND_PROXY)).toBeUndefined();
    expect(addressOf("spare:81", BEHIND_PROXY)?.host).toBe("spare:81");
  });

  it("numeric addresses of this machine when it listens on all of them, and no name pointed at it", () => {
    const everywhere: HostRules = { listen: "0.0.0.0", tls: true };
    const own = Object.values(os.networkInterfaces())
      .flatMap((nets) => nets ?? [])
      .find(({ family }) => family === "IPv4");
    expect(own).toBeDefined();
    expect(addressOf(`${own?.address}:4400`, everywhere)).toEqual({
      host: `${own?.address}:4400`,
      protocol: "https",
      published: false,
    });
    expect(addressOf("203.0.113.9:4400", everywhere)).toBeUndefined();
    expect(addressOf("rebound.example:4400", everywhere)).toBeUndefined();
  });
});
