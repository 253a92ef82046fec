import { describe, expect, it } from "vitest";
import { fillsTheScreen, placeOf, placesFor } from "@/app/_shell/places";
import { nextPath } from "@/app/sign-in/next-path";

describe("where signing in leads", () => {
  it.each([
    ["/rooms/1?x=2", "/rooms/1?x=2"],
    [undefined, "/"],
    ["", "/"],
    ["https://elsewhere.example/", "/"],
    ["//elsewhere.example/", "/"],
    ["/\\elsewhere.example/", "/"],
    ["rooms/1", "/"],
    ["/sign-in?next=/", "/"],
    [["/tasks", "//elsewhere.example"], "/tasks"],
  ])("from %j it is %s", (wanted, path) => expect(nextPath(wanted)).toBe(path));
});

describe("the places of the navigation", () => {
  it("offers the set-up to those who may set something up", () => {
    expect(placesFor([]).map(({ label }) => label)).toEqual(["Rooms", "To do", "History", "Reports", "Calculator"]);
    expect(placesFor(["add-person"]).map(({ label }) => label)).toContain("Set-up");
  });

  it.each([
    ["/", "/"],
    ["/rooms/1", "/"],
    ["/tasks", "/tasks"],
    ["/tasks/check%3A1", "/tasks"],
    ["/tasksandmore", null],
    ["/checks/1", null],
  ])("%s belongs to %s", (path, place) => expect(placeOf(path)).toBe(place));

  it("leaves a phone's screen to a check", () => {
    expect(fillsTheScreen("/checks/1")).toBe(true);
    expect(fillsTheScreen("/rooms/1")).toBe(false);
  });
});
