import type { Browser, Page } from "playwright-core";
import { importDepartment } from "@/lib/commands/import-department";
import { type AppServer, startAppServer } from "@/tests/support/app-server";
import { launchBrowser } from "@/tests/support/browser";
import { type Visitor, visitor } from "@/tests/support/page";
import { type SmallDepartment, smallDepartment } from "@/tests/support/small-department";

export const PASSWORD = "walking the rooms";
export interface Device {
  readonly viewport: { readonly width: number; readonly height: number };
  readonly hasTouch?: boolean;
}

/** A small department with a server and a browser on it, for tests of what a person does. */
export interface BrowserDepartment {
  readonly department: SmallDepartment;
  readonly server: AppServer;
  readonly browser: Browser;
  /** Signs somebody in on a device of that size and goes to the path. */
  come(userId: string, device: Device, path?: string): Promise<Visitor>;
  page(userId: string, device: Device, path?: string): Promise<Page>;
  close(): Promise<void>;
}

const PEOPLE = [
  "user id,name,roles,initial password",
  `rosei,Rosa Osei,technician,${PASSWORD}`,
  `mlind,Mika Lind,technician,${PASSWORD}`,
  `kbrandt,Karl Brandt,provider,${PASSWORD}`,
  `imarlow,Ines Marlow,charge provider,${PASSWORD}`,
].join("\n");

export async function browserDepartment(
  now = "2026-11-24T11:40:00Z",
  prepare: (department: SmallDepartment) => Promise<unknown> = async () => undefined,
  flags: readonly string[] = [],
  environment: Readonly<Record<string, string>> = {},
): Promise<BrowserDepartment> {
  const department = await smallDepartment(now);
  await department.must(importDepartment, { files: { people: PEOPLE } }, department.admin);
  await prepare(department);
  const server = await startAppServer({
    database: department,
    now: Date.parse(now),
    environment,
  });
  const browser = await launchBrowser(flags);
  const visitors: Visitor[] = [];
  const come: BrowserDepartment["come"] = async (userId, device, path = "/") => {
    const came = await visitor(browser, server, device, { userId, password: PASSWORD }, path);
    visitors.push(came);
    return came;
  };
  return {
    department,
    server,
    browser,
    come,
    page: async (userId, device, path) => (await come(userId, device, path)).page,
    close: async () => {
      for (const { context } of visitors) await context.close();
      await browser.close();
      await server.stop();
      await department.close();
    },
  };
}
