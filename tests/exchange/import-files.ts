import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { type Planned, planImport } from "@/lib/domain/department/decide";
import type { Department, DepartmentFile, Problem } from "@/lib/domain/department/model";
import { importTemplate } from "@/lib/exchange/import-template";
import { readDepartment } from "@/lib/schemas/import-rows";
import { IMPORT_FILES } from "@/lib/schemas/set-up";
import { localDate } from "@/lib/units/time";

export type Files = Partial<Record<DepartmentFile, string>>;

export const TODAY = localDate("2026-11-24");

export const templates = (): Record<DepartmentFile, string> =>
  Object.fromEntries(IMPORT_FILES.map((file) => [file, importTemplate(file)])) as Record<DepartmentFile, string>;

/** An example department as it stands in the documentation. */
export function example(name: "us-quillhaven" | "iso-saltmere"): Files {
  const folder = path.join(process.cwd(), "docs", "examples", name);
  const files = readdirSync(folder).filter((file) => file.endsWith(".csv"));
  return Object.fromEntries(
    files.map((file) => [file.replace(".csv", ""), readFileSync(path.join(folder, file), "utf8")]),
  );
}

export const NOTHING_THERE: Department = {
  records: {
    suites: [],
    zones: [],
    stores: [],
    rooms: [],
    models: [],
    workstations: [],
    cylinders: [],
    vaporizers: [],
    absorbent: [],
    sensors: [],
    service: [],
    people: [],
    list: [],
  },
  roomsInUse: [],
  userIdsTaken: [],
};

export function plan(files: Files, there: Department = NOTHING_THERE, mayChangePeople = true): Planned {
  let made = 0;
  const newId = () => {
    made += 1;
    return `id-${made}`;
  };
  return planImport(readDepartment(files, TODAY), there, { newId, mayChangePeople });
}

/** The department that the templates make, as the database would give it back. */
export function templateDepartment(): Department {
  const { problems, plan: made } = plan(templates());
  if (problems.length > 0) throw new Error(`the templates have problems: ${JSON.stringify(problems)}`);
  return { ...NOTHING_THERE, records: made.records };
}

/** The problems of the templates with some files put in other words. */
export const problemsOf = (files: Files, there?: Department): readonly Problem[] => plan(files, there).problems;

/** The one problem there is, when there is exactly one. */
export function onlyProblem(files: Files, there?: Department): Problem {
  const problems = problemsOf(files, there);
  if (problems.length !== 1 || !problems[0])
    throw new Error(`expected one problem, found ${JSON.stringify(problems, null, 1)}`);
  return problems[0];
}

/** A template with one text in it put for another; the text must be there. */
export function templateWith(file: DepartmentFile, from: string, to: string): string {
  const text = importTemplate(file);
  if (!text.includes(from)) throw new Error(`the template of ${file} holds no ${from}`);
  return text.replace(from, to);
}
