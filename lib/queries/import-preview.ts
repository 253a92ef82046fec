import { randomUUID } from "node:crypto";
import type { Actor } from "@/lib/auth/actor";
import { checkDayAt } from "@/lib/domain/check-day";
import { planImport } from "@/lib/domain/department/decide";
import type { DepartmentFile, DepartmentRead, Problem } from "@/lib/domain/department/model";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import { readDepartment } from "@/lib/schemas/import-rows";
import type { ImportPreview } from "@/lib/schemas/set-up";
import { askedBy, loadDepartment } from "@/lib/storage/department";

/** More than anybody mends before trying again. */
const MOST_SHOWN = 500;

/** What an import of these files would do and everything that is wrong with them. Writes nothing. */
export const previewImport = (
  actor: Actor,
  files: Readonly<Partial<Record<DepartmentFile, string>>>,
  reading: Reading = appReading(),
): Promise<ImportPreview> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      const read = readDepartment(files, checkDayAt(checkClock(frame), now).date);
      const there = await loadDepartment(tx, frame.scope, askedBy(read));
      const { problems, counts } = planImport(read, there, {
        newId: randomUUID,
        mayChangePeople: actor.roles.includes("administrator"),
      });
      return { ok: problems.length === 0, problems: shown(problems), counts: [...counts], date: oneDate(read) };
    },
    reading,
  );

function shown(problems: readonly Problem[]): Problem[] {
  const left = problems[MOST_SHOWN - 1];
  if (problems.length <= MOST_SHOWN || left === undefined) return [...problems];
  const more = problems.length - MOST_SHOWN + 1;
  return [
    ...problems.slice(0, MOST_SHOWN - 1),
    {
      ...left,
      column: null,
      value: null,
      message: `From here on there are ${more} more problems. Mend those above and look again.`,
    },
  ];
}

/** The day of the list, when the file is about one day. */
function oneDate({ rows }: DepartmentRead): string | null {
  const dates = new Set(rows.list.map(({ date }) => date));
  const [only] = dates;
  return dates.size === 1 && only ? only : null;
}
