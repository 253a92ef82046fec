import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { downtimePdf } from "@/lib/exchange/downtime/pdf";
import { keepCopies } from "@/lib/jobs/downtime-copies";
import { readDowntime } from "@/lib/queries/downtime";
import { instant } from "@/lib/units/time";
import { readingOf } from "@/tests/support/room-work";
import type { SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

let department: SmallDepartment;
let folder: string;
beforeAll(async () => {
  department = await widerDepartment();
  folder = mkdtempSync(path.join(os.tmpdir(), "yokeboard-copies-"));
});
afterAll(async () => {
  rmSync(folder, { recursive: true, force: true });
  await department.close();
});

const count = (pdf: string, what: RegExp) => [...pdf.matchAll(what)].length;

describe("the morning kept beside the server", () => {
  it("is one whole file a facility, replaced in place, and nothing half written is left", async () => {
    const { database } = department;
    const copies = { database, now: () => instant(department.clock.now()), folder, render: downtimePdf };
    const first = await keepCopies(copies);
    expect(first).toHaveLength(1);
    expect(readdirSync(folder)).toEqual(first);
    const before = readFileSync(path.join(folder, first[0] ?? ""));
    department.clock.add(15);
    expect(await keepCopies(copies)).toEqual(first);
    expect(readdirSync(folder)).toEqual(first);
    const after = readFileSync(path.join(folder, first[0] ?? ""));
    expect(after.subarray(0, 5).toString()).toBe("%PDF-");
    expect(after.equals(before)).toBe(false);
  });
});

describe("the document", () => {
  it("can be followed by a screen reader: tagged, titled, its language, a table row for each room and item", async () => {
    const view = await readDowntime(department.admin, readingOf(department));
    const pdf = (await downtimePdf(view)).toString("latin1");
    expect(pdf).toMatch(/\/Marked true/);
    expect(pdf).toMatch(/\/Lang \(en-US\)/);
    expect(pdf).toMatch(/\/DisplayDocTitle true/);
    expect(pdf).toMatch(/\/Title /);
    expect(count(pdf, /\/S \/H1\b/g)).toBe(1);
    expect(count(pdf, /\/S \/H2\b/g)).toBe(view.sheets.length);
    expect(count(pdf, /\/S \/Table\b/g)).toBe(view.sheets.length + 1);
    const rows = view.rooms.length + view.sheets.reduce((sum, { items }) => sum + items.length, 0);
    expect(count(pdf, /\/S \/TR\b/g)).toBeGreaterThanOrEqual(rows + view.sheets.length + 1);
  });

  it("holds 200 rooms and their sheets, letters beyond Latin-1 among them", async () => {
    const view = await readDowntime(department.admin, readingOf(department));
    const [room] = view.rooms;
    const [sheet] = view.sheets;
    if (!room || !sheet) throw new Error("the department has no room");
    const many = Array.from({ length: 200 }, (_, place) => `Żółć ${place + 1}`);
    const pdf = await downtimePdf({
      ...view,
      facility: "Łąka",
      rooms: many.map((name) => ({ ...room, name })),
      sheets: many.map((name) => ({ ...sheet, room: name })),
    });
    expect(count(pdf.toString("latin1"), /\/Type \/Page\b/g)).toBeGreaterThanOrEqual(200);
  });
});
