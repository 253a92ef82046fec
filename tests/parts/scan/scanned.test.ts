import { describe, expect, it } from "vitest";
import { readScanned, workstationPath } from "@/app/_parts/scan/scanned";

const ID = "0b9f3c1e-5d7a-4e21-9c44-7f2a1c3d5e6f";

describe("what a scanned code says", () => {
  it.each([
    ["AW-07", { by: "number", number: "AW-07" }],
    ["  aw 7 ", { by: "number", number: "aw 7" }],
    [`https://board.example${workstationPath(ID)}`, { by: "id", id: ID }],
    [`http://10.0.0.7:4400${workstationPath(ID.toUpperCase())}/`, { by: "id", id: ID }],
    [`HTTPS://board.example${workstationPath(ID)}?from=label`, { by: "id", id: ID }],
  ] as const)("%s is a workstation’s", (text, scanned) => {
    expect(readScanned(text)).toEqual(scanned);
  });

  it.each([
    ["nothing", ""],
    ["a page of something else", "https://board.example/rooms/0b9f3c1e-5d7a-4e21-9c44-7f2a1c3d5e6f"],
    ["a deeper page", `https://board.example${workstationPath(ID)}/parts`],
    ["a number in the place of the id", "https://board.example/workstations/AW-07"],
    ["an address that is none", "https://"],
    ["a text with a group separator, as on a product", "010123456789012817261231\u001d10ABC"],
    ["a whole text", "x".repeat(61)],
  ])("%s is not", (_what, text) => {
    expect(readScanned(text)).toBeNull();
  });
});
