import type { DepartmentFile, Fitted, ModelRecord, WorkstationRecord } from "@/lib/domain/department/model";
import type { Entry, Merged, Tell } from "@/lib/domain/department-merge";
import type { Parts } from "@/lib/domain/department-parts";
import type { Places } from "@/lib/domain/department-places";
import { fitsYoke } from "@/lib/domain/pin-index";

interface Part {
  readonly id: string;
  readonly fitted: Fitted | null;
}

interface On {
  readonly workstation: Entry<WorkstationRecord>;
  readonly model: Entry<ModelRecord>;
  readonly position: string;
}

interface Kind<Record extends Part> {
  readonly parts: Merged<Record>;
  /** What the part is called in a sentence, such as "Vaporizer VP-03". */
  readonly called: (record: Record) => string;
  readonly column: string;
  /** Why it cannot be there; null when it can. */
  readonly misfit: (record: Record, on: On) => string | null;
}

/**
 * Everything fitted is looked at as it will be after the import, whether a row names it or not: a changed model can take a yoke
 * away from a cylinder that no file mentions.
 */
export function checkFittings(tell: Tell, places: Places, parts: Parts): void {
  const standing = standingOf(places);
  checkKind(tell, standing, {
    parts: parts.cylinders,
    called: ({ serial }) => `Cylinder ${serial}`,
    column: "yoke",
    misfit: ({ gas }, { workstation, model, position }) => {
      const yoke = model.record.document.yokes.find((one) => one.position === position);
      if (!yoke)
        return `${workstation.record.tag} has no yoke ${position}; its yokes are ${model.record.document.yokes.map((one) => `${one.position} (${one.gas.replace("-", " ")})`).join(", ") || "none"}.`;
      const fits = fitsYoke(gas, yoke.gas);
      return fits.ok ? null : fits.message;
    },
  });
  checkKind(tell, standing, {
    parts: parts.vaporizers,
    called: ({ tag }) => `Vaporizer ${tag}`,
    column: "mount",
    misfit: (_, { workstation, model, position }) =>
      model.record.document.mounts.includes(position)
        ? null
        : `${workstation.record.tag} has no mount ${position}; its mounts are ${model.record.document.mounts.join(", ") || "none"}.`,
  });
  checkKind(tell, standing, {
    parts: parts.absorbent,
    called: ({ tag }) => `Absorbent ${tag}`,
    column: "canister",
    misfit: () => null,
  });
  checkKind(tell, standing, {
    parts: parts.sensors,
    called: ({ tag }) => `Oxygen sensor ${tag}`,
    column: "workstation",
    misfit: ({ kind }, { workstation, model }) =>
      kind === model.record.document.oxygenSensor
        ? null
        : `${workstation.record.tag} measures oxygen with a ${model.record.document.oxygenSensor} sensor, and this one is ${kind}.`,
  });
}

function standingOf({ workstations, models }: Places): ReadonlyMap<string, Omit<On, "position">> {
  const modelOf = new Map(models.entries.map((model) => [model.record.id, model]));
  return new Map(
    workstations.entries.flatMap((workstation) => {
      const model = modelOf.get(workstation.record.modelId);
      return model ? [[workstation.record.id, { workstation, model }] as const] : [];
    }),
  );
}

function checkKind<Record extends Part>(
  tell: Tell,
  standing: ReadonlyMap<string, Omit<On, "position">>,
  kind: Kind<Record>,
): void {
  const taken = new Map<string, Entry<Record>>();
  for (const entry of [...kind.parts.entries].sort((left, right) => (left.line ?? 0) - (right.line ?? 0))) {
    const { fitted } = entry.record;
    const on = fitted && standing.get(fitted.workstationId);
    // Without a model the workstation's own row has the problem.
    if (!fitted || !on) continue;
    const misfit = kind.misfit(entry.record, { ...on, position: fitted.position });
    if (misfit !== null) tellMisfit(tell, kind, entry, on, misfit);
    const place = `${fitted.workstationId} ${fitted.position.toLowerCase()}`;
    const first = taken.get(place);
    if (first === undefined) taken.set(place, entry);
    else if (entry.line !== null)
      tellTaken(tell, kind, first, { ...entry, line: entry.line }, on.workstation.record.tag);
  }
}

/** At the part's own line; where no row names the part, at the line that changed what it is fitted to. */
function tellMisfit<Record extends Part>(
  tell: Tell,
  { called, column, parts }: Kind<Record>,
  entry: Entry<Record>,
  on: Omit<On, "position">,
  why: string,
): void {
  const causes: readonly { readonly file: DepartmentFile; readonly line: number | null; readonly column: string }[] = [
    { file: parts.file, line: entry.line, column },
    { file: "workstations", line: on.workstation.line, column: "model" },
    { file: "models", line: on.model.line, column: "name" },
  ];
  const cause = causes.find(({ line }) => line !== null);
  const message =
    cause?.file === parts.file ? why : `${called(entry.record)} is fitted there and would no longer fit: ${why}`;
  if (cause?.line)
    tell({
      file: cause.file,
      line: cause.line,
      column: cause.column,
      value: entry.record.fitted?.position ?? null,
      message,
    });
}

function tellTaken<Record extends Part>(
  tell: Tell,
  { called, column, parts }: Kind<Record>,
  first: Entry<Record>,
  second: Entry<Record> & { readonly line: number },
  tag: string,
): void {
  const position = second.record.fitted?.position ?? "";
  const place = column === "workstation" ? tag : `${column} ${position} of ${tag}`;
  const message =
    first.line === null
      ? `${called(first.record)} is on ${place} already. Give it another place in this file too, or put ${called(second.record)} elsewhere.`
      : `${called(first.record)} on line ${first.line} and ${called(second.record)} on line ${second.line} are both on ${place}, which holds one.`;
  tell({ file: parts.file, line: second.line, column, value: position, message });
}
