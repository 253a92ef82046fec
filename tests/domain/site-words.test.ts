import { describe, expect, it } from "vitest";
import { SCHEME_WORDS, SITE_WORDS } from "@/lib/domain/site/model";
import { sayAround, sayIn } from "@/lib/domain/site-words";

const us = sayIn(SCHEME_WORDS.US);
const iso = sayIn(SCHEME_WORDS.ISO);

describe("the words of a site", () => {
  it.each([
    ["24 rooms in 3 suites", "24 rooms in 3 suites", "24 theatres in 3 theatre suites"],
    ["Rooms", "Rooms", "Theatres"],
    ["Suite", "Suite", "Theatre suite"],
    ["The operating room is closed", "The operating room is closed", "The theatre is closed"],
    ["Start daily check", "Start machine check", "Start session check"],
    ["Daily checks done", "Machine checks done", "Session checks done"],
    ["Waste gas is extracted", "WAGD is extracted", "AGSS is extracted"],
    ["Intravenous anesthesia only.", "Intravenous anesthesia only.", "Intravenous anaesthesia only."],
    ["Anesthetic gas", "Anesthetic gas", "Anaesthetic gas"],
  ])("%s: %s, or %s", (text, inUs, inIso) => {
    expect([us(text), iso(text)]).toEqual([inUs, inIso]);
  });

  it.each(["Weak breaths, and room air", "At room temperature", "Workroom", "To the workrooms", "Roomy"])(
    "leaves %s alone: it is no room of a list",
    (text) => {
      expect(iso(text)).toBe(text);
    },
  );

  it("leaves names alone that people gave", () => {
    const name = "Room 4, old suite";
    expect(iso`Retired the room ${name} of ${2} suites`).toBe(
      "Retired the theatre Room 4, old suite of 2 theatre suites",
    );
  });

  it("says each word that can be chosen, in one and in many", () => {
    for (const suite of SITE_WORDS.suite) {
      const say = sayIn({ ...SCHEME_WORDS.US, suite });
      expect([say("suite"), say("Suites")]).toEqual([suite, `${suite.charAt(0).toUpperCase()}${suite.slice(1)}s`]);
    }
    for (const check of SITE_WORDS.check) expect(sayIn({ ...SCHEME_WORDS.US, check })("daily check")).toBe(check);
    for (const wasteGas of SITE_WORDS.wasteGas)
      expect(sayIn({ ...SCHEME_WORDS.US, wasteGas })("waste gas")).toBe(wasteGas);
  });
});

describe("a sentence with names", () => {
  it("keeps them, the longer before the shorter, and any sign in them", () => {
    const names = ["Room 4", "Room 4 (old suite)", "OR 1"];
    expect(sayAround(iso, "2 of 3 rooms are ready. Room 4 (old suite) and Room 4 need a decision.", names)).toBe(
      "2 of 3 theatres are ready. Room 4 (old suite) and Room 4 need a decision.",
    );
    expect(sayAround(iso, "No room runs today.", [])).toBe("No theatre runs today.");
  });
});
