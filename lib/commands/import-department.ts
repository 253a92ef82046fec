import { hashPassword } from "@/lib/auth/password";
import { command } from "@/lib/commands/command";
import { checkDayAt } from "@/lib/domain/check-day";
import { type Count, planImport } from "@/lib/domain/department/decide";
import type { Department, DepartmentRead } from "@/lib/domain/department/model";
import { done, refused } from "@/lib/domain/outcome";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { readDepartment } from "@/lib/schemas/import-rows";
import { importReply, importRequest } from "@/lib/schemas/set-up";
import { askedBy, loadDepartment } from "@/lib/storage/department";
import { writeDepartment } from "@/lib/storage/department-write";
import { modelsChangedElsewhere } from "@/lib/storage/set-up-elsewhere";

/** A whole department, or a part of one, from its files: all of it or nothing, and safe to repeat. */
export const importDepartment = command({
  name: "import-department",
  summary: "Import a department's files: everything or nothing; repeating the same files changes nothing.",
  schema: importRequest,
  reply: importReply,
  locks: () => ({ everything: true }),
  load: async (tx, { files }, { begun, now }) => {
    const read = readDepartment(files, checkDayAt(checkClock(begun), now).date);
    const there = await loadDepartment(tx, begun.scope, askedBy(read));
    // Hashing is slow on purpose: not before it is known that every row could be read.
    return { read, there, hashes: read.problems.length > 0 ? new Map<string, string>() : await hashesFor(read, there) };
  },
  decide: ({ read, there, hashes }, _input, context) => {
    const mayChangePeople = context.begun.roles.includes("administrator");
    const { problems, counts, plan } = planImport(read, there, { newId: context.newId, mayChangePeople });
    const [first] = problems;
    if (first === undefined) return done({ plan, counts, hashes });
    const where = `${first.file}, line ${first.line}${first.column === null ? "" : `, ${first.column}`}`;
    const more = problems.length > 1 ? ` There are ${problems.length} problems; the preview lists them.` : "";
    return refused("invalid", `Nothing was imported. ${where}: ${first.message}${more}`, `files.${first.file}`);
  },
  apply: async (tx, { plan, counts, hashes }, _input, context) => {
    const { actor, begun, now, newId } = context;
    const written = await writeDepartment(tx, plan, {
      scope: begun.scope,
      at: now,
      by: actor.personId,
      session: actor.sessionId,
      newId,
      hashes,
    });
    if (!written)
      return refused(
        "moved-on",
        "Somebody else added one of these people or models in the meantime. Look at the preview again.",
      );
    const changed = plan.records.models.filter(({ id }) => !plan.newModels.some((made) => made.id === id));
    await modelsChangedElsewhere(
      tx,
      begun.scope,
      changed.map(({ id }) => id),
    );
    return {
      reply: { counts: [...counts] },
      note: { text: `Imported: ${counts.map(said).join(", ") || "no files"}`, data: { counts } },
    };
  },
});

async function hashesFor(read: DepartmentRead, there: Department): Promise<Map<string, string>> {
  const known = new Set(there.records.people.map(({ userId }) => userId));
  const hashing = read.rows.people.flatMap(({ userId, initialPassword }) =>
    known.has(userId) || initialPassword === null
      ? []
      : [hashPassword(initialPassword).then((hash) => [userId, hash] as const)],
  );
  return new Map(await Promise.all(hashing));
}

/** "24 rooms (24 added)" */
function said({ file, rows, added, changed, same }: Count): string {
  const parts = [
    added > 0 ? `${added} added` : "",
    changed > 0 ? `${changed} changed` : "",
    same > 0 ? `${same} same` : "",
  ].filter(Boolean);
  return `${rows} ${NOUNS[file][rows === 1 ? 0 : 1]}${parts.length > 0 ? ` (${parts.join(", ")})` : ""}`;
}

const NOUNS: Readonly<Record<Count["file"], readonly [one: string, many: string]>> = {
  suites: ["suite", "suites"],
  zones: ["pipeline zone", "pipeline zones"],
  stores: ["store", "stores"],
  rooms: ["room", "rooms"],
  models: ["model", "models"],
  workstations: ["workstation", "workstations"],
  cylinders: ["cylinder", "cylinders"],
  vaporizers: ["vaporizer", "vaporizers"],
  absorbent: ["absorbent canister", "absorbent canisters"],
  sensors: ["oxygen sensor", "oxygen sensors"],
  service: ["service date", "service dates"],
  people: ["person", "people"],
  list: ["list line", "list lines"],
};
