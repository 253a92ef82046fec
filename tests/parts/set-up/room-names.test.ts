import { describe, expect, it } from "vitest";
import { roomNames } from "@/app/set-up/rooms/room-names";

describe("names typed for rooms", () => {
  it.each([
    ["OR 1 to OR 4", ["OR 1", "OR 2", "OR 3", "OR 4"]],
    ["OR 1-3", ["OR 1", "OR 2", "OR 3"]],
    ["or 9 TO OR 11", ["or 9", "or 10", "or 11"]],
    ["Theatre 08 to 11", ["Theatre 08", "Theatre 09", "Theatre 10", "Theatre 11"]],
    ["MRI, HV 1 to HV 2; CATH 1", ["MRI", "HV 1", "HV 2", "CATH 1"]],
    ["  ", []],
    ["3-4", ["3", "4"]],
  ])("%s", (text, names) => {
    expect(roomNames(text)).toEqual(names);
  });

  it.each(["OR 1 to HV 3", "OR 5 to OR 5", "OR 9 to OR 2", "OR 1 to OR 900", "Bay 12B", "Level 2 - east"])(
    "takes %s as one name: it is no range",
    (text) => {
      expect(roomNames(text)).toEqual([text]);
    },
  );
});
