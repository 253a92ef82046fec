import type { Answer } from "@/lib/domain/answer";
import type { Evidence } from "@/lib/domain/evidence";
import { type ItemId, itemOf, type Subject, type SubjectKind } from "@/lib/domain/items";
import { RECHECK } from "@/lib/domain/recheck";
import { type EventKind, GASES } from "@/lib/domain/vocabulary";
import { isPressureUnit } from "@/lib/units/pressure";
import type { Quantity } from "@/lib/units/quantity";
import { mostIn, outside } from "./number-checks";
import { type DocumentProblem, pathOf, type Step } from "./problem";
import { choicesOf, unitsOf } from "./reading-units";

/** An answer about the wrong thing, or in a unit that does not measure it, would be kept and prove nothing. */
export function answerProblems({ observations, procedure, trends, events, workstation }: Evidence): DocumentProblem[] {
  return [
    ...observations.flatMap(({ item, subject, answer }, place) => [
      ...subjectProblems(["observations", place], item, subject),
      ...(answerProblem(["observations", place, "answer"], item, answer) ?? []),
    ]),
    ...(procedure?.owes ?? []).flatMap(({ item, subject }, place) =>
      subjectProblems(["procedure", "owes", place], item, subject),
    ),
    ...trends.flatMap(({ item, subject }, place) => subjectProblems(["trends", place], item, subject)),
    ...(workstation?.recentFailures ?? []).flatMap(({ item, subject }, place) =>
      subjectProblems(["workstation", "recentFailures", place], item, subject),
    ),
    ...events.flatMap(({ kind, subject }, place) => eventProblems(["events", place], kind, subject)),
  ];
}

function subjectProblems(at: readonly Step[], item: ItemId, subject: Subject): DocumentProblem[] {
  const { subject: kind } = itemOf(item);
  if (subject.kind !== kind) return [wrongSubject(at, subject, `${item} is about: ${kind}`)];
  return kind === "pipeline" ? gasProblems(at, subject) : [];
}

function gasProblems(at: readonly Step[], { id }: Subject): DocumentProblem[] {
  if ((GASES as readonly string[]).includes(id)) return [];
  const message = `“${id}” is no pipeline; a pipeline is named by its gas: ${GASES.join(", ")}`;
  return [{ path: pathOf([...at, "subject", "id"]), value: id, message }];
}

const wrongSubject = (at: readonly Step[], { kind }: Subject, what: string): DocumentProblem => ({
  path: pathOf([...at, "subject", "kind"]),
  value: kind,
  message: `“${kind}” is not right here; ${what}`,
});

/** An event makes due what is about its own part; about another kind of thing it would make nothing due. */
function eventProblems(at: readonly Step[], kind: EventKind, subject: Subject): DocumentProblem[] {
  const kinds = subjectsOf(kind);
  if (kinds.length > 0 && !kinds.includes(subject.kind)) {
    return [wrongSubject(at, subject, `${kind} is about: ${kinds.join(", ")}`)];
  }
  return subject.kind === "pipeline" ? gasProblems(at, subject) : [];
}

function subjectsOf(kind: EventKind): readonly SubjectKind[] {
  if (kind === "pipeline-event") return ["pipeline", "room"];
  const rows = RECHECK[kind];
  if (rows === "everything") return ["workstation"];
  const own = rows.filter(({ of }) => of === "same").map(({ item }) => itemOf(item).subject);
  return [...new Set(own)];
}

function answerProblem(at: readonly Step[], item: ItemId, answer: Answer): DocumentProblem[] | null {
  switch (answer.kind) {
    case "number":
    case "gauge":
      return readingProblems([...at, "reading"], item, answer.reading);
    case "choice":
      return choiceProblems([...at, "choice"], item, answer.choice);
    default:
      return null;
  }
}

function choiceProblems(path: readonly Step[], item: ItemId, choice: string): DocumentProblem[] {
  const known = choicesOf(item);
  if (known === null || known.includes(choice)) return [];
  return [{ path: pathOf(path), value: choice, message: `“${choice}” is not known here; known: ${known.join(", ")}` }];
}

function readingProblems(path: readonly Step[], item: ItemId, { value, unit }: Quantity): DocumentProblem[] {
  const known = unitsOf(item);
  if (known !== null && !known.includes(unit)) {
    const message = `“${unit}” is not a unit here; known: ${known.join(", ")}`;
    return [{ path: pathOf([...path, "unit"]), value: unit, message }];
  }
  const most = mostIn(unit);
  if (value >= 0 && value <= most) return [];
  const problem = outside([...path, "value"], value, most, unit);
  // Somebody may write how far below the room's pressure a vacuum is.
  const sign = isPressureUnit(unit) && value < 0 ? "; a vacuum is written by its size, without a sign" : "";
  return [{ ...problem, message: `${problem.message}${sign}` }];
}
