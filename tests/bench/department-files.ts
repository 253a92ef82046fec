import { stringify } from "csv-stringify/sync";
import type { DepartmentFile } from "@/lib/domain/department/model";
import { headersOf } from "@/lib/schemas/import-columns";

/** Rows by header; a header that is left out is an empty cell. */
type Row = Readonly<Record<string, string | number>>;

export const TECHNICIAN = "bench.technician";
export const PROVIDER = "bench.provider";
export const VIEWER = (n: number): string => `bench.viewer${n}`;
export const PASSWORD = "measured not guessed";

const SUITE_SIZE = 10;
const YOKES = [
  { yoke: 1, gas: "oxygen", litres: 660, psi: 1900 },
  { yoke: 2, gas: "oxygen", litres: 660, psi: 1900 },
  { yoke: 3, gas: "nitrous oxide", litres: 1590, psi: 745 },
] as const;

/** The import's files of an invented department in which every room has a whole workstation and a list today. */
export function departmentFiles(rooms: number, viewers: number): Record<string, string> {
  const numbers = Array.from({ length: rooms }, (_, index) => index + 1);
  const suites = Array.from({ length: Math.ceil(rooms / SUITE_SIZE) }, (_, index) => index + 1);
  const rows: Record<DepartmentFile, Row[]> = {
    suites: suites.map((n) => ({ name: `Suite ${n}`, "walking order": n })),
    zones: [{ name: "Zone A" }, { name: "Zone B" }],
    stores: [{ name: "Workroom" }],
    rooms: numbers.map(roomRow),
    models: [modelRow()],
    workstations: numbers.map((n) => ({ tag: `W-${n}`, serial: `S-${n}`, model: "Ostrel 12", room: `Room ${n}` })),
    cylinders: numbers.flatMap(cylinderRows),
    vaporizers: numbers.flatMap(vaporizerRows),
    absorbent: numbers.map(absorbentRow),
    sensors: numbers.map((n) => ({ tag: `OS-${n}`, kind: "galvanic", workstation: `W-${n}` })),
    service: numbers.map(serviceRow),
    people: peopleRows(viewers),
    list: numbers.map(listRow),
  };
  return Object.fromEntries(
    Object.entries(rows).map(([file, records]) => [file, csvOf(file as DepartmentFile, records)]),
  );
}

function csvOf(file: DepartmentFile, rows: readonly Row[]): string {
  const headers = headersOf(file);
  return stringify([headers, ...rows.map((row) => headers.map((header) => row[header] ?? ""))]);
}

const roomRow = (n: number): Row => ({
  name: `Room ${n}`,
  suite: `Suite ${Math.ceil(n / SUITE_SIZE)}`,
  zone: n % 2 === 0 ? "Zone A" : "Zone B",
  "piped gases": "oxygen|air|nitrous oxide",
  vacuum: "yes",
  "waste gas": "active",
  "walking order": n,
});

const modelRow = (): Row => ({
  name: "Ostrel 12",
  maker: "Ostrel Works",
  drive: "ascending bellows",
  "drive gas": "oxygen",
  "leak test": "bulb",
  "oxygen sensor": "galvanic",
  mounts: "2",
  yokes: "1:oxygen|2:oxygen|3:nitrous oxide",
  "outlet selector": "no",
  "vapor-free minutes": 20,
});

const cylinderRows = (n: number): Row[] =>
  YOKES.map(({ yoke, gas, litres, psi }) => ({
    serial: `C-${n}-${yoke}`,
    gas,
    scheme: "US",
    size: "E",
    "water capacity L": 4.8,
    "rated contents L": litres,
    "rated pressure": psi,
    "rated pressure unit": "psi",
    expiry: "today+300",
    "retest due": "today+600",
    workstation: `W-${n}`,
    yoke,
    contents: "in use",
  }));

const vaporizerRows = (n: number): Row[] =>
  ["sevoflurane", "desflurane"].map((agent, index) => ({
    tag: `V-${n}-${index + 1}`,
    agent,
    filler: "keyed",
    workstation: `W-${n}`,
    mount: index + 1,
    "calibration due": "today+100",
    "window to": "today+130",
  }));

const absorbentRow = (n: number): Row => ({
  tag: `A-${n}`,
  product: "Calmora violet",
  indicator: "yes",
  reverts: "yes",
  "strong base": "no",
  "litres per 100 g": 12,
  "mass g": 1000,
  workstation: `W-${n}`,
  canister: 1,
});

const serviceRow = (n: number): Row => ({
  workstation: `W-${n}`,
  plan: "half-yearly inspection",
  due: "today+60",
  "window from": "today+46",
  "window to": "today+74",
});

const listRow = (n: number): Row => ({
  date: "today",
  room: `Room ${n}`,
  "first case": "07:30",
  ends: "16:00",
  needs: "volatile|mechanical ventilation|low flow",
  "set-up minutes": 15,
});

const peopleRows = (viewers: number): Row[] =>
  [
    { id: TECHNICIAN, name: "Bench Technician", roles: "technician" },
    { id: PROVIDER, name: "Bench Provider", roles: "provider" },
    ...Array.from({ length: viewers }, (_, n) => ({ id: VIEWER(n), name: `Bench Viewer ${n}`, roles: "provider" })),
  ].map(({ id, name, roles }) => ({ "user id": id, name, roles, "initial password": PASSWORD }));
