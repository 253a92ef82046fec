import { describe, expect, it } from "vitest";
import { decideAccess, rolesAfterEntry, rolesFromClaims } from "@/lib/domain/access/decide";
import { DEFAULT_ACCESS } from "@/lib/domain/access/model";
import { decidePin, demandOf } from "@/lib/domain/signature/decide";
import { instant, MINUTE } from "@/lib/units/time";

describe("roles from an issuer's claims", () => {
  const gives = [
    { value: "tech", roles: ["technician" as const] },
    { value: "lead", roles: ["manager" as const, "technician" as const] },
  ];

  it.each([
    [{ groups: ["tech"] }, ["technician"]],
    [{ groups: ["lead", "tech", "other"] }, ["technician", "manager"]],
    [{ groups: "lead" }, ["technician", "manager"]],
    [{ groups: ["TECH", 7, null] }, []],
    [{ groups: { tech: true } }, []],
    [{}, []],
  ])("%j gives %j", (claims, roles) => {
    expect(rolesFromClaims({ claim: "groups", gives }, claims)).toEqual(roles);
  });

  it("are found under a name with dots, and one object deeper; never in what every object has", () => {
    expect(rolesFromClaims({ claim: "access.groups", gives }, { access: { groups: ["tech"] } })).toEqual([
      "technician",
    ]);
    expect(
      rolesFromClaims({ claim: "https://a.example/groups", gives }, { "https://a.example/groups": ["tech"] }),
    ).toEqual(["technician"]);
    expect(
      rolesFromClaims({ claim: "constructor.name", gives: [{ value: "Object", roles: ["manager"] }] }, {}),
    ).toEqual([]);
  });

  it("never take the last administrator of a facility away", () => {
    expect(rolesAfterEntry(["administrator"], ["technician"], false)).toEqual(["technician", "administrator"]);
    expect(rolesAfterEntry(["administrator"], ["technician"], true)).toEqual(["technician"]);
  });

  it("are refused with one value in two lines", () => {
    const mapping = { claim: "groups", gives: [...gives, { value: "tech", roles: ["provider" as const] }] };
    expect(decideAccess({ ...DEFAULT_ACCESS, mapping })).toMatchObject({ ok: false, field: "mapping" });
    expect(decideAccess({ ...DEFAULT_ACCESS, mapping: { claim: "groups", gives } }).ok).toBe(true);
  });
});

describe("what the next signature asks for", () => {
  const at = (minutes: number) => instant(minutes * MINUTE);
  const session = { policy: "two-then-one" as const, idleMinutes: 10, activeAt: at(0), fullySignedAt: at(0) };

  it.each([
    [{ fullySignedAt: null }, 1, "two"],
    [{}, 10, "one"],
    [{}, 10.1, "two"],
    [{ policy: "one" as const, fullySignedAt: null }, 60, "one"],
    [{ policy: "none" as const, fullySignedAt: null }, 60, "none"],
  ])("%j after %d minutes: %s", (change, minutes, demand) => {
    expect(demandOf({ ...session, ...change }, at(minutes))).toBe(demand);
  });
});

describe("a PIN", () => {
  it.each(["274916", "907142883210", "112358"])("%s is good", (pin) => expect(decidePin(pin).ok).toBe(true));
  it.each(["27491", "1234567890123", "111111", "123456", "987654", "121212", "274274", "27491a", ""])(
    "%s is not",
    (pin) => expect(decidePin(pin)).toMatchObject({ ok: false, refusal: "invalid", field: "pin" }),
  );
});
