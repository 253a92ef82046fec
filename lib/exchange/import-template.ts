import { stringify } from "csv-stringify/sync";
import type { DepartmentFile } from "@/lib/domain/department/model";
import { headersOf } from "@/lib/schemas/import-columns";

/** A file to fill in: its header and two rows of an invented department. All of the templates together can be imported as they are. */
export function importTemplate(file: DepartmentFile): string {
  const headers = headersOf(file);
  const rows = EXAMPLES[file].map((example) => headers.map((header) => example[header] ?? ""));
  return stringify([headers, ...rows], { record_delimiter: "\r\n" });
}

type Example = Readonly<Record<string, string>>;

const EXAMPLES: Readonly<Record<DepartmentFile, readonly [Example, Example]>> = {
  suites: [
    { name: "Main suite", "walking order": "1" },
    { name: "Day surgery", "walking order": "2" },
  ],
  zones: [{ name: "North wing, level 2" }, { name: "South wing, level 1" }],
  stores: [
    { name: "Workroom", suite: "Main suite", "walking order": "5" },
    { name: "Cylinder store", suite: "", "walking order": "" },
  ],
  rooms: [
    {
      name: "OR 1",
      suite: "Main suite",
      zone: "North wing, level 2",
      "piped gases": "oxygen|air|nitrous oxide",
      vacuum: "yes",
      "waste gas": "active",
      "walking order": "1",
    },
    {
      name: "Procedure 1",
      suite: "Day surgery",
      zone: "",
      "piped gases": "",
      vacuum: "no",
      "waste gas": "none",
      "walking order": "20",
    },
  ],
  models: [
    {
      name: "Marrowby 40",
      maker: "Marrowby Apparatus",
      drive: "ascending bellows",
      "drive gas": "oxygen",
      "leak test": "bulb",
      "oxygen sensor": "galvanic",
      mounts: "2",
      yokes: "1:oxygen|2:nitrous oxide",
      "self-test covers": "",
      "outlet selector": "no",
      "vapor-free minutes": "20",
    },
    {
      name: "Dovelin P2",
      maker: "Dovelin",
      drive: "piston",
      "drive gas": "none",
      "leak test": "self-test",
      "oxygen sensor": "paramagnetic",
      mounts: "left|right",
      yokes: "1:oxygen",
      "self-test covers": "apl|flow-sensor",
      "outlet selector": "yes",
      "vapor-free minutes": "",
    },
  ],
  workstations: [
    { tag: "AW-01", serial: "MB40-10211", model: "Marrowby 40", room: "OR 1", store: "" },
    { tag: "AW-02", serial: "P2-00874", model: "Dovelin P2", room: "", store: "Workroom" },
  ],
  cylinders: [
    {
      serial: "OX-40117",
      gas: "oxygen",
      scheme: "US",
      size: "E",
      "water capacity L": "4.8",
      "rated contents L": "660",
      "rated pressure": "1900",
      "rated pressure unit": "psi",
      expiry: "",
      "retest due": "today+700",
      workstation: "AW-01",
      yoke: "1",
      store: "",
      contents: "in use",
    },
    {
      serial: "OX-40118",
      gas: "oxygen",
      scheme: "US",
      size: "E",
      "water capacity L": "4.8",
      "rated contents L": "660",
      "rated pressure": "1900",
      "rated pressure unit": "psi",
      expiry: "today+365",
      "retest due": "",
      workstation: "",
      yoke: "",
      store: "Cylinder store",
      contents: "full",
    },
  ],
  vaporizers: [
    {
      tag: "VP-01",
      agent: "sevoflurane",
      filler: "keyed",
      workstation: "AW-01",
      mount: "1",
      store: "",
      "calibration due": "today+120",
      "window to": "today+150",
    },
    {
      tag: "VP-02",
      agent: "desflurane",
      filler: "bottle valve",
      workstation: "",
      mount: "",
      store: "Workroom",
      "calibration due": "",
      "window to": "",
    },
  ],
  absorbent: [
    {
      tag: "AB-01",
      product: "Calmora violet",
      indicator: "yes",
      reverts: "yes",
      "strong base": "no",
      "litres per 100 g": "12",
      "mass g": "1000",
      workstation: "AW-01",
      canister: "1",
      store: "",
    },
    {
      tag: "AB-02",
      product: "Calmora violet",
      indicator: "yes",
      reverts: "yes",
      "strong base": "no",
      "litres per 100 g": "12",
      "mass g": "1000",
      workstation: "",
      canister: "",
      store: "Workroom",
    },
  ],
  sensors: [
    { tag: "OS-01", kind: "galvanic", workstation: "AW-01", store: "" },
    { tag: "OS-02", kind: "paramagnetic", workstation: "AW-02", store: "" },
  ],
  service: [
    { workstation: "AW-01", plan: "half-yearly", due: "today+90", "window from": "today+60", "window to": "today+120" },
    { workstation: "AW-02", plan: "yearly", due: "2031-05-12", "window from": "2031-04-12", "window to": "2031-06-11" },
  ],
  people: [
    { "user id": "i.marsh", name: "Ines Marsh", roles: "technician", "initial password": "change me at once" },
    {
      "user id": "d.oyelaran",
      name: "Dele Oyelaran",
      roles: "provider|charge provider",
      "initial password": "change me at once",
    },
  ],
  list: [
    {
      date: "today",
      room: "OR 1",
      "first case": "07:30",
      ends: "15:00",
      needs: "volatile|mechanical ventilation|low flow",
      "set-up minutes": "15",
    },
    {
      date: "today",
      room: "Procedure 1",
      "first case": "08:15",
      ends: "12:00",
      needs: "sedation",
      "set-up minutes": "5",
    },
  ],
};
