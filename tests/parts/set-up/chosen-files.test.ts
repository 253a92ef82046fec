import { describe, expect, it } from "vitest";
import { fileNamed, readChosen } from "@/app/set-up/import/chosen-files.client";

describe("which file a chosen file is", () => {
  it.each([
    ["rooms.csv", "rooms"],
    ["Rooms.CSV", "rooms"],
    ["rooms (2).csv", "rooms"],
    ["riverside-rooms.csv", "rooms"],
    ["rooms 2026-11-25.csv", "rooms"],
    ["sensors.txt", "sensors"],
    ["notes.csv", null],
    ["bathrooms.csv", null],
  ])("%s is %s", (name, file) => {
    expect(fileNamed(name)).toBe(file);
  });
});

describe("reading chosen files", () => {
  it("takes UTF-8 text and says by name what it cannot take", async () => {
    const { files, refused } = await readChosen([
      new File(["name\nSaal Ä\n"], "rooms.csv"),
      new File([new Uint8Array([0x6e, 0x0a, 0xc4])], "suites.csv"),
      new File(["x"], "notes.csv"),
      new File(["name\n"], "rooms (1).csv"),
    ]);
    expect(files).toEqual([{ file: "rooms", fileName: "rooms.csv", text: "name\nSaal Ä\n" }]);
    expect(refused).toEqual([
      "suites.csv is not UTF-8 text. Save it again as “CSV UTF-8”.",
      "notes.csv is none of the thirteen: name it after its template, such as rooms.csv.",
      "rooms (1).csv and rooms.csv are both the file “rooms”: choose one of them.",
    ]);
  });
});
