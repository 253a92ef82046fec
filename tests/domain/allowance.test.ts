import { describe, expect, it } from "vitest";
import { allowedUntil, decideAllow } from "@/lib/domain/allowance";
import type { Allowance } from "@/lib/domain/evidence";
import type { Finding, Judgement } from "@/lib/domain/judgement";
import { instantOf, timestampOf } from "@/lib/units/time";

const finding = (rule: string, severity: Finding["severity"]): Finding => ({
  rule,
  severity,
  subject: { kind: "workstation", id: "w" },
  text: "a limit",
  measured: null,
  limit: null,
  citation: "none",
  settingsVersion: 1,
  items: [],
  takesAway: [],
  supplyFailure: false,
  allowedUntil: null,
});
const judged = (...reasons: Finding[]): Judgement => ({
  state: "ready-limited",
  marks: { equipment: null, provider: null },
  reasons,
  limits: [],
  owed: [],
  readyForList: true,
  whenInUse: null,
  decideBy: null,
  goodUntil: null,
});
const late = judged(finding("service-late", "limits"));
const noNitrousOxide = judged(finding("nitrous-oxide-pipeline", "limits"));

describe("who may allow use with a limit", () => {
  it("is the charge provider for a gas that is missing, and nobody else", () => {
    expect(decideAllow(noNitrousOxide, [], "nitrous-oxide-pipeline", ["charge-provider"])).toEqual({
      ok: true,
      value: { role: "charge-provider", stillNeeds: [] },
    });
    expect(decideAllow(noNitrousOxide, [], "nitrous-oxide-pipeline", ["technician", "manager"])).toMatchObject({
      ok: false,
      refusal: "not-allowed",
    });
  });

  it("is two people together for a service that is late: the first is told who must still agree", () => {
    const first = decideAllow(late, [], "service-late", ["biomedical-engineer"]);
    expect(first).toEqual({ ok: true, value: { role: "biomedical-engineer", stillNeeds: ["manager"] } });
    const given: Allowance = {
      rule: "service-late",
      by: [{ person: "p", role: "biomedical-engineer" }],
      measures: "vaporizer output checked",
      until: "2026-11-27T12:00:00Z",
    };
    expect(decideAllow(late, [given], "service-late", ["manager"])).toEqual({
      ok: true,
      value: { role: "manager", stillNeeds: [] },
    });
  });

  it("is nobody for a stop, not even for one that an ended allowance has become: it is cleared", () => {
    const ended = judged(finding("service-late", "stops"));
    expect(decideAllow(ended, [], "service-late", ["manager", "biomedical-engineer"])).toMatchObject({
      ok: false,
      refusal: "not-allowed",
    });
    const low = judged(finding("reserve-oxygen-low", "stops"));
    expect(decideAllow(low, [], "reserve-oxygen-low", ["charge-provider"])).toMatchObject({
      ok: false,
      refusal: "not-allowed",
    });
  });

  it("is refused where the limit is not in force", () => {
    expect(decideAllow(judged(), [], "service-late", ["manager"])).toMatchObject({ ok: false, refusal: "not-found" });
  });
});

describe("for how long", () => {
  it.each([
    ["this-list", "2026-11-24T23:00:00.000Z"],
    ["1-day", "2026-11-25T12:00:00.000Z"],
    ["3-days", "2026-11-27T12:00:00.000Z"],
    ["10-days", "2026-12-04T12:00:00.000Z"],
  ] as const)("%s ends at %s", (allowFor, ends) => {
    const now = instantOf("2026-11-24T12:00:00Z");
    expect(timestampOf(allowedUntil(allowFor, now, instantOf("2026-11-24T23:00:00Z")))).toBe(ends);
  });
});
