import type { Page } from "playwright-core";
import type { Board, BoardRow } from "@/lib/schemas/board";

export const SCREENS = {
  phone: { width: 390, height: 844, scale: 2 },
  desk: { width: 1440, height: 900, scale: 1 },
  wall: { width: 1920, height: 1080, scale: 1 },
} as const;

/** One picture: who looks at what, on what. */
export interface Scene {
  /** The file's name in docs/pictures. */
  readonly name: string;
  readonly who: string;
  readonly screen: keyof typeof SCREENS;
  readonly dark?: boolean;
  /** Goes to the page, and is done when it shows what the picture is about. */
  come(page: Page): Promise<void>;
}

const TECHNICIAN = "n.halabi";
const MANAGER = "h.peel";

/** What the gauge in the picture reads, in psi. */
const READING = "1750";

/** In this order: what changes something in the hospital comes last. */
export const SCENES: readonly Scene[] = [
  { name: "rooms-desk", who: MANAGER, screen: "desk", come: (page) => plain(page, "/") },
  { name: "rooms-dark", who: MANAGER, screen: "desk", dark: true, come: (page) => plain(page, "/") },
  { name: "rooms-phone", who: TECHNICIAN, screen: "phone", come: (page) => plain(page, "/") },
  { name: "wall", who: MANAGER, screen: "wall", come: (page) => plain(page, "/wall") },
  { name: "room-desk", who: TECHNICIAN, screen: "desk", come: roomThatStops },
  { name: "to-do-phone", who: TECHNICIAN, screen: "phone", come: (page) => plain(page, "/tasks") },
  { name: "report-checks-done", who: MANAGER, screen: "desk", come: (page) => plain(page, "/reports") },
  { name: "report-ready-by", who: MANAGER, screen: "desk", come: (page) => plain(page, "/reports/ready-by") },
  { name: "report-reasons", who: MANAGER, screen: "desk", come: (page) => plain(page, "/reports/reasons") },
  { name: "shift-sheet", who: MANAGER, screen: "desk", come: (page) => plain(page, "/reports/shift") },
  { name: "set-up-rules", who: MANAGER, screen: "desk", come: (page) => plain(page, "/set-up/rules") },
  { name: "check-phone", who: TECHNICIAN, screen: "phone", come: gaugeOfACheck },
];

async function plain(page: Page, path: string): Promise<void> {
  await page.goto(path);
  await page.getByRole("heading", { level: 1 }).first().waitFor();
}

async function rowWhere(page: Page, isWanted: (row: BoardRow) => boolean, what: string): Promise<BoardRow> {
  const { rooms } = (await (await page.request.get("/api/v1/board")).json()) as Board;
  const row = rooms.find(isWanted);
  if (!row) throw new Error(`The demonstration's morning has no room that ${what}.`);
  return row;
}

/** The room whose reserve is low: its gas path shows where. */
async function roomThatStops(page: Page): Promise<void> {
  const row = await rowWhere(page, (one) => one.headlineRule === "reserve-oxygen-low", "is low on reserve oxygen");
  await plain(page, `/rooms/${row.roomId}`);
  await page.getByRole("heading", { name: "Gas path", exact: true }).waitFor();
}

/** A check on its way, at the reserve cylinder's gauge. */
async function gaugeOfACheck(page: Page): Promise<void> {
  const row = await rowWhere(page, (one) => one.headline?.startsWith("Not checked yet") === true, "is not checked yet");
  const reply = await page.request.post("/api/v1/commands/start-check", {
    data: { workstationId: row.workstation?.id, kind: "daily" },
    headers: { "Idempotency-Key": `pictures-${row.roomId}` },
  });
  if (!reply.ok()) throw new Error(`The check could not be started: ${reply.status()} ${await reply.text()}`);
  const { checkId } = (await reply.json()) as { checkId: string };
  const { items } = (await (await page.request.get(`/api/v1/checks/${checkId}`)).json()) as {
    items: { item: string }[];
  };
  const gauge = items.findIndex(({ item }) => item === "cylinder-gauge");
  await plain(page, `/checks/${checkId}#${gauge + 1}`);
  for (const digit of READING) await page.getByRole("button", { name: digit, exact: true }).click();
  await page.evaluate(() => window.scrollTo(0, 0));
}
