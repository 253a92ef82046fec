import type { Actor } from "@/lib/auth/actor";
import type { Answer } from "@/lib/domain/answer";
import { answerKey, signedAs, standingAnswers, versionOf } from "@/lib/domain/check/model";
import type { Evidence } from "@/lib/domain/evidence";
import { readingOf, scaleOf, usualOf } from "@/lib/domain/far-from-history";
import { gaugeChange } from "@/lib/domain/gauge-change";
import { itemOf } from "@/lib/domain/items";
import { type CheckItem, expandProcedure } from "@/lib/domain/procedure/decide";
import { subjectName } from "@/lib/domain/wording";
import { isId } from "@/lib/queries/evidence";
import { questionsView } from "@/lib/queries/questions";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import { worthOf } from "@/lib/queries/room-parts";
import type { CheckView } from "@/lib/schemas/check";
import { findProcedure, fittedAt, previousAnswers, roomName } from "@/lib/storage/check-reading";
import { type CheckRecord, findCheck, findDraft } from "@/lib/storage/checks";
import type { Tx } from "@/lib/storage/client";
import { loadEvidence } from "@/lib/storage/evidence";
import type { Frame } from "@/lib/storage/facility-frame";
import { namesOf } from "@/lib/storage/names";
import { roomsWith } from "@/lib/storage/places";
import { readingSeries, seriesKey } from "@/lib/storage/reading-series";
import { type Instant, instantOf, type Timestamp, timestampOf } from "@/lib/units/time";

/** A check as it is being answered, or as it was signed; null when the facility has no such check. */
export const readCheck = (actor: Actor, checkId: string, reading: Reading = appReading()): Promise<CheckView | null> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      const check = isId(checkId) ? await findCheck(tx, frame.scope.facilityId, checkId) : null;
      return check && viewOf(tx, frame, check, actor.personId, now);
    },
    reading,
  );

/** A daily check as it would begin now, under a placeholder's id; null when there is no such workstation, or nothing is asked of it. */
export const readCheckStart = (
  actor: Actor,
  workstationId: string,
  reading: Reading = appReading(),
): Promise<CheckView | null> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      if (!isId(workstationId)) return null;
      const rooms = await roomsWith(tx, frame.scope.facilityId, [workstationId]);
      const holders = await loadEvidence(tx, frame, [...rooms], [workstationId], now);
      const found = holders.find((holder) => holder.workstationId === workstationId)?.evidence;
      if (!found?.procedure) return null;
      const check: CheckRecord = {
        id: workstationId,
        kind: "daily",
        procedureId: found.procedure.id,
        workstationId,
        roomId: found.room?.id ?? null,
        startedAt: now,
        startedBy: actor.personId,
        answers: [],
        signatures: [],
      };
      return viewOf(tx, frame, check, actor.personId, now);
    },
    reading,
  );

async function viewOf(
  tx: Tx,
  frame: Frame,
  check: CheckRecord,
  personId: string,
  now: Instant,
): Promise<CheckView | null> {
  const { facilityId } = frame.scope;
  // It may have been moved since: what is asked now is asked where it stands, and what was signed stays about where it stood.
  const rooms = new Set([
    ...(await roomsWith(tx, facilityId, [check.workstationId])),
    ...(check.roomId ? [check.roomId] : []),
  ]);
  const holders = await loadEvidence(tx, frame, [...rooms], [check.workstationId], now);
  const found = holders.find(({ workstationId }) => workstationId === check.workstationId)?.evidence;
  const stood = holders.find(({ kind, id }) => kind === "room" && id === check.roomId)?.evidence.room ?? null;
  const evidence = found && (await asItWas(tx, facilityId, found, check, stood));
  if (!evidence?.workstation) return null;
  const procedure = check.procedureId ? await findProcedure(tx, facilityId, check.procedureId) : null;
  const names = await namesOf(tx, [
    check.startedBy,
    ...check.answers.map(({ by }) => by),
    ...check.signatures.map((signature) => signature.personId),
  ]);
  const name = (id: string) => names.get(id) ?? "unknown";
  return {
    id: check.id,
    kind: check.kind,
    procedure: procedure && {
      id: check.procedureId,
      name: procedure.name,
      version: procedure.version,
      citation: procedure.citation,
    },
    workstation: { id: evidence.workstation.id, tag: evidence.workstation.tag, model: evidence.workstation.model.name },
    room: check.roomId ? { id: check.roomId, name: (await roomName(tx, facilityId, check.roomId)) ?? "" } : null,
    startedAt: timestampOf(check.startedAt),
    startedBy: name(check.startedBy),
    items: await withUsuals(
      tx,
      frame,
      check,
      now,
      questionsOf(check, procedure ? expandProcedure(procedure, evidence, check.shortened) : [], evidence),
    ),
    recorded: await recordedOf(tx, facilityId, check, evidence, name),
    draft: await findDraft(tx, facilityId, check.id, personId),
    signatures: check.signatures.map(({ personId: by, role, meaning, at }) => ({
      name: name(by),
      role,
      meaning,
      at: timestampOf(at),
    })),
    shortened: check.shortened ?? false,
    version: versionOf(check),
    at: timestampOf(now),
  };
}

/** What the readings usually are, so that a slip is asked about before it is recorded; a signed check is only read. */
async function withUsuals(
  tx: Tx,
  frame: Frame,
  check: CheckRecord,
  now: Instant,
  items: CheckView["items"],
): Promise<CheckView["items"]> {
  if (signedAs(check, "performed")) return items;
  const series = await readingSeries(tx, frame.scope.facilityId, check.workstationId, check.roomId, now);
  return items.map((item) => {
    if (item.form.kind !== "number" && item.form.kind !== "gauge") return item;
    const points = series.get(seriesKey(item.item, item.subject.id)) ?? [];
    const readings = points.flatMap(({ answer }) => readingOf(answer) ?? []);
    return { ...item, usual: usualOf(readings, item.form.unit, scaleOf(item.limits)) };
  });
}

/** A signed check is about the room and the parts of when it was signed; an open one about those of now. */
async function asItWas(
  tx: Tx,
  facilityId: string,
  evidence: Evidence,
  check: CheckRecord,
  stood: Evidence["room"],
): Promise<Evidence> {
  const signed = signedAs(check, "performed");
  if (!signed || !evidence.workstation) return evidence;
  const fitted = await fittedAt(tx, facilityId, check.workstationId, signed.at);
  return { ...evidence, room: stood, workstation: { ...evidence.workstation, fitted } };
}

/** A check of its own asks the whole procedure; a recheck shows what it answered. */
function questionsOf(check: CheckRecord, asked: readonly CheckItem[], evidence: Evidence): CheckView["items"] {
  const questions = questionsView(asked);
  const answered = new Set(check.answers.map(({ item, subject }) => answerKey(item, subject)));
  const known = new Set(questions.map(({ key }) => key));
  const gone = [...standingAnswers(check.answers).values()].filter(
    ({ item, subject }) => !known.has(answerKey(item, subject)),
  );
  // What was answered stays readable, also when the part has been taken off since.
  const past: CheckView["items"] = gone.map(({ item, subject }) => ({
    key: answerKey(item, subject),
    item,
    subject,
    subjectName: subjectName(subject, evidence.workstation),
    title: itemOf(item).name,
    how: "",
    why: "",
    whenItFails: "",
    form: { kind: "pass", yes: "Passes", no: "Fails" },
    limits: null,
    by: "either",
  }));
  const whole = check.kind !== "recheck" && check.procedureId !== null;
  return [...(whole ? questions : questions.filter(({ key }) => answered.has(key))), ...past];
}

async function recordedOf(
  tx: Tx,
  facilityId: string,
  check: CheckRecord,
  evidence: Evidence,
  name: (id: string) => string,
): Promise<CheckView["recorded"]> {
  const standing = standingAnswers(check.answers);
  const previous = await previousAnswers(tx, facilityId, check);
  return [...standing].map(([key, given]) => ({
    observationId: given.id,
    key,
    item: given.item,
    subject: given.subject,
    answer: given.answer,
    verdict: given.verdict,
    by: name(given.by),
    at: timestampOf(given.observedAt),
    previous: previous.get(key) ?? null,
    worth: worthOf(given.answer, given.subject, evidence),
    since: sinceOf(given, previous.get(key) ?? null, evidence),
  }));
}

/** What became of a cylinder's contents between two readings with the valve open. */
function sinceOf(
  { answer, subject, observedAt }: CheckRecord["answers"][number],
  before: { readonly answer: Answer; readonly at: Timestamp } | null,
  evidence: Evidence,
): string | null {
  const cylinder = evidence.workstation?.fitted.cylinders.find(({ id }) => id === subject.id);
  if (!cylinder || before === null) return null;
  const [first, second] = [openReading(before.answer), openReading(answer)];
  if (first === null || second === null) return null;
  const at = { first: instantOf(before.at), second: observedAt };
  return gaugeChange({ reading: first, at: at.first }, { reading: second, at: at.second }, cylinder, evidence);
}

const openReading = (answer: Answer) => (answer.kind === "gauge" && answer.openWhenRead ? answer.reading : null);
