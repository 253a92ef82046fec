import type { Answer } from "@/lib/domain/answer";
import type { DepartmentEvent, DepartmentEventKind, Raised, RoomEffect, RoomReturned } from "@/lib/domain/event/model";
import type { Evidence } from "@/lib/domain/evidence";
import type { ItemId, Subject } from "@/lib/domain/items";
import type { Judgement } from "@/lib/domain/judgement";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import { PERMISSIONS } from "@/lib/domain/permission";
import type { SettingsPlace } from "@/lib/domain/rule";
import { bandAssessment } from "@/lib/domain/rules/bands";
import { airPipeline } from "@/lib/domain/rules/pipeline/air-pipeline";
import { nitrousOxidePipeline } from "@/lib/domain/rules/pipeline/nitrous-oxide-pipeline";
import { oxygenPipeline } from "@/lib/domain/rules/pipeline/oxygen-pipeline";
import { valuesOf } from "@/lib/domain/rules/settings";
import type { TaskDraft } from "@/lib/domain/task/model";
import type { Gas } from "@/lib/domain/vocabulary";
import { GAS_NAMES, lowerFirst, said } from "@/lib/domain/wording";
import { isAbove, isBelow, type Quantity } from "@/lib/units/quantity";

const BANDS = { oxygen: oxygenPipeline, air: airPipeline, "nitrous-oxide": nitrousOxidePipeline } as const;
/** Minutes for pressure and identity in one room: common practice, no source. */
const MINUTES_A_ROOM = 4;

export const isPipeline = (kind: DepartmentEventKind): boolean => kind.startsWith("pipeline-");
const isLost = (kind: DepartmentEventKind): boolean => kind === "pipeline-low" || kind === "pipeline-high";

/** Is what somebody says of one piece, and does the reading say the same as the words? */
export function raisedProblem(raised: Raised, place: SettingsPlace): { message: string; field: string } | null {
  const { kind, gas, reading } = raised;
  if (kind === "recall")
    return raised.modelId === undefined || raised.zoneId !== undefined
      ? { field: "modelId", message: "A recall is about a model of workstation: name the model, and no zone." }
      : null;
  if (raised.zoneId === undefined || raised.modelId !== undefined)
    return { field: "zoneId", message: "Name the zone it happened in, and no model." };
  if (!isPipeline(kind))
    return gas === undefined && reading === undefined
      ? null
      : { field: "gas", message: "A power failure has no gas and no pressure: leave both out." };
  if (gas === undefined) return { field: "gas", message: "Say which gas: oxygen, air or nitrous oxide." };
  return reading === undefined ? null : readingProblem(kind, gas, reading, place);
}

function readingProblem(kind: DepartmentEventKind, gas: Gas, reading: Quantity, place: SettingsPlace) {
  const bands = valuesOf(BANDS[gas], place);
  const problem = (message: string) => ({ field: "reading", message });
  const below = isBelow(reading, bands.noticeBelow);
  if (below === null || reading.value < 0)
    return problem(`${said(reading)} is no pressure of a pipeline: give psi, kPa or bar, not under 0.`);
  if (kind === "pipeline-low" && !below)
    return problem(`${said(reading)} is not low: under ${said(bands.noticeBelow)} is.`);
  if (kind === "pipeline-high" && isAbove(reading, bands.noticeAbove) !== true)
    return problem(`${said(reading)} is not high: over ${said(bands.noticeAbove)} is.`);
  if (kind === "pipeline-restored" && bandAssessment({ kind: "number", reading }, bands) === "fail")
    return problem(
      `${said(reading)} is not restored: from ${said(bands.stopBelow)} to ${said(bands.stopAbove)} is. Raise it as low or high.`,
    );
  return null;
}

/** Does the event touch this room? A gas that is not piped there is missed by nobody. */
export function touches({ kind, gas }: Pick<Raised, "kind" | "gas">, { room, workstation }: Evidence): boolean {
  if (kind === "recall") return workstation !== null;
  if (kind === "power") return workstation !== null;
  return gas !== undefined && (room?.piped.includes(gas) ?? false);
}

/** Null where the event leaves the room's record alone: every drill, and a recall, which is told by the model. */
export function effectOn(raised: Raised, evidence: Evidence): RoomEffect | null {
  const { kind, gas, drill } = raised;
  if (drill || kind === "recall" || !touches(raised, evidence)) return null;
  if (kind === "power") {
    const subject: Subject = { kind: "workstation", id: evidence.workstation?.id ?? "" };
    const answer: Answer = { kind: "pass", passed: false, note: "power failed in the zone" };
    return { event: { kind: "power-event", subject }, failing: { item: "mains-power", subject, answer } };
  }
  const subject: Subject = { kind: "pipeline", id: gas ?? "" };
  return {
    event: { kind: "pipeline-event", subject },
    failing: isLost(kind) ? failingPressure(raised, subject, evidence) : null,
  };
}

function failingPressure(raised: Raised, subject: Subject, evidence: Evidence): RoomEffect["failing"] {
  const { reading, kind, gas } = raised;
  if (reading === undefined) {
    const note = kind === "pipeline-high" ? "reported high in the zone" : "reported low in the zone";
    return { item: "pipeline-pressure", subject, answer: { kind: "pass", passed: false, note } };
  }
  const answer: Answer = { kind: "number", reading };
  // Off normal but inside the band it stops nobody; the recheck that the event makes due is asked for all the same.
  const fails = bandAssessment(answer, valuesOf(BANDS[gas ?? "oxygen"], evidence)) === "fail";
  return fails ? { item: "pipeline-pressure", subject, answer } : null;
}

/** The answers that return one room to service, or what is missing or wrong about them. */
export function returnAnswers(
  { kind, gas }: Pick<DepartmentEvent, "kind" | "gas">,
  { pressure, identity, mains }: RoomReturned,
  { room, workstation }: Evidence,
): Outcome<readonly { item: ItemId; subject: Subject; answer: Answer }[], "invalid"> {
  const name = room?.name ?? "this room";
  if (kind === "power") {
    if (mains === undefined) return refused("invalid", `${name}: say whether the workstation runs on mains again.`);
    const subject: Subject = { kind: "workstation", id: workstation?.id ?? "" };
    return done([{ item: "mains-power", subject, answer: { kind: "pass", passed: mains } }]);
  }
  if (pressure === undefined || identity === undefined)
    return refused(
      "invalid",
      `${name}: give the pressure and the gas identity. Pressure proves pressure, and not which gas.`,
    );
  const subject: Subject = { kind: "pipeline", id: gas ?? "" };
  return done([
    { item: "pipeline-pressure", subject, answer: { kind: "number", reading: pressure } },
    { item: "pipeline-identity", subject, answer: { kind: "pass", passed: identity } },
  ]);
}

const ASKED: Readonly<Record<"pipeline" | "power", readonly ItemId[]>> = {
  pipeline: ["pipeline-pressure", "pipeline-identity"],
  power: ["mains-power"],
};

/**
 * What of the event this room still has to show: owed by it, or failing. Empty when it is back; what a room owes because nobody has
 * checked it today is no matter of the event.
 */
export function stillOwed(
  { kind, gas }: Pick<DepartmentEvent, "kind" | "gas">,
  evidence: Evidence,
  judgement: Judgement,
): readonly ItemId[] {
  if (kind === "recall" || evidence.workstation === null) return [];
  const items = ASKED[kind === "power" ? "power" : "pipeline"];
  const isMine = (subject: Subject) => kind === "power" || subject.id === gas;
  const failing = judgement.reasons.filter(
    ({ severity, subject }) => severity !== "note" && severity !== "due" && severity !== "owed" && isMine(subject),
  );
  return items.filter(
    (item) =>
      judgement.owed.some((one) => one.because === "recheck" && one.item === item && isMine(one.subject)) ||
      failing.some((finding) => finding.items.length > 0 && finding.items.includes(item)),
  );
}

const KIND_TITLES: Readonly<Record<DepartmentEventKind, string>> = {
  "pipeline-low": "pipeline low",
  "pipeline-high": "pipeline high",
  "pipeline-restored": "pipeline restored",
  power: "Power failed",
  recall: "Recall",
};

/** "Oxygen pipeline low, 43 psi: Zone North". A drill says so first. */
export function eventTitle(
  event: Pick<DepartmentEvent, "kind" | "gas" | "reading" | "drill" | "zone" | "model">,
): string {
  const words = KIND_TITLES[event.kind];
  const what = event.gas === null ? words : `${GAS_NAMES[event.gas]} ${words}`;
  const reading = event.reading === null ? "" : `, ${said(event.reading)}`;
  const title = `${what}${reading}: ${event.zone?.name ?? event.model?.name ?? ""}`;
  return event.drill ? `Drill: ${lowerFirst(title)}` : title;
}

export const eventTaskKey = (id: string): string => `event:${id}`;

/** The one piece of work that an event is, whichever number of rooms it touches. */
export function eventTask(event: DepartmentEvent, roomsLeft: number): TaskDraft {
  const title = eventTitle(event);
  return {
    key: eventTaskKey(event.id),
    kind: "event",
    title,
    why: taskWhy(event, roomsLeft),
    severity: event.drill || event.kind === "recall" ? "due" : "stops",
    minutes: Math.max(1, roomsLeft) * MINUTES_A_ROOM,
    mayDo: PERMISSIONS["return-to-service"],
    items: [],
    subject: null,
    rule: null,
    checkKind: null,
  };
}

function taskWhy({ drill, kind, note }: DepartmentEvent, rooms: number): string {
  const many = `${rooms} ${rooms === 1 ? "room" : "rooms"}`;
  if (drill) return `A drill: walk the card in ${many}; nothing is out of use`;
  if (kind === "recall") return `Recall${note ? `, ${note}` : ""}: to be assessed in ${many}`;
  const looks = kind === "power" ? "mains power" : "pressure and gas identity";
  return `${many} to return to service: ${looks} in each`;
}
