import type { Actor } from "@/lib/auth/actor";
import { checkDayAt } from "@/lib/domain/check-day";
import type { Allowance } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import type { Finding, Judgement } from "@/lib/domain/judgement";
import { RULES } from "@/lib/domain/rules/all";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import type { Role } from "@/lib/domain/vocabulary";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import type { AllowancesView, AllowedLimit, VaporFreeView } from "@/lib/schemas/allowances";
import type { Tx } from "@/lib/storage/client";
import { type Holder, loadEvidence } from "@/lib/storage/evidence";
import type { Frame } from "@/lib/storage/facility-frame";
import { asWho, namesOf } from "@/lib/storage/names";
import { everyHolder } from "@/lib/storage/places";
import { openRequests, type VaporFreeRequest } from "@/lib/storage/vapor-free";
import { type Instant, instantOf, timestampOf } from "@/lib/units/time";

const VAPOR_FREE = "vapor-free-preparation";

/** Everything that is allowed with a limit and until when, what waits for somebody's word, and the vapor-free preparations. */
export const readAllowances = (actor: Actor, reading: Reading = appReading()): Promise<AllowancesView> =>
  inFacility(actor, (tx, frame, now) => allowancesIn(tx, frame, now), reading);

interface JudgedHolder {
  readonly holder: Holder;
  readonly judgement: Judgement;
}

async function allowancesIn(tx: Tx, frame: Frame, now: Instant): Promise<AllowancesView> {
  const { facilityId } = frame.scope;
  const { rooms, workstations } = await everyHolder(tx, facilityId);
  const holders = await loadEvidence(tx, frame, rooms, workstations, now);
  const judged = [...holders]
    .sort((left, right) => left.walkingOrder - right.walkingOrder)
    .map((holder) => ({ holder, judgement: judge(holder.evidence) }));
  const people = holders.flatMap(({ evidence }) => evidence.workstation?.allowed.flatMap(({ by }) => by) ?? []);
  const who = asWho(await namesOf(tx, [...new Set(people.map(({ person }) => person))]));
  const today = checkDayAt(checkClock(frame), now).date;
  const requests = await openRequests(tx, facilityId, today);
  return {
    limits: judged.flatMap((one) => limitsOf(one, who, now)).sort(byStanding),
    vaporFree: vaporFreeOf(judged, requests),
    rooms: judged.flatMap(({ holder: { evidence } }) =>
      evidence.room ? [{ id: evidence.room.id, name: evidence.room.name }] : [],
    ),
    at: timestampOf(now),
  };
}

type Who = (personId: string) => string;

function limitsOf({ holder, judgement }: JudgedHolder, who: Who, now: Instant): AllowedLimit[] {
  const { workstation, room } = holder.evidence;
  if (!workstation) return [];
  const place = {
    workstation: { id: workstation.id, tag: workstation.tag },
    room: room && { id: room.id, name: room.name },
  };
  const found = judgement.reasons.filter(
    (reason) =>
      ruleOf(reason.rule).mayAllow.length > 0 && (reason.severity === "limits" || isEnded(reason, workstation.allowed)),
  );
  const shown = found.map((reason) => {
    const allowance = workstation.allowed.find(({ rule }) => rule === reason.rule) ?? null;
    return { ...place, ...limitOf(reason, allowance, who, now) };
  });
  const cleared = workstation.allowed
    .filter(({ rule, until }) => instantOf(until) > now && !found.some((reason) => reason.rule === rule))
    .map((allowance) => ({ ...place, ...clearedLimit(allowance, who) }));
  return [...shown, ...cleared];
}

const isEnded = ({ rule, severity }: Finding, allowed: readonly Allowance[]): boolean =>
  severity === "stops" && allowed.some((one) => one.rule === rule);

function ruleOf(id: string) {
  const rule = RULES.find((one) => one.id === id);
  return {
    mayAllow: [...(rule?.allowedBy ?? [])],
    together: rule?.allowedTogether ?? false,
    first: rule?.use?.first ?? null,
    differently: rule?.use?.differently ?? null,
    inBrief: rule?.inBrief ?? id,
  };
}

type Limit = Omit<AllowedLimit, "workstation" | "room">;

function limitOf(reason: Finding, allowance: Allowance | null, who: Who, now: Instant): Limit {
  const { mayAllow, together, first, differently } = ruleOf(reason.rule);
  const given = allowance?.by ?? [];
  const stillNeeds = together && allowance ? mayAllow.filter((role) => !given.some((by) => by.role === role)) : [];
  return {
    rule: reason.rule,
    what: reason.text,
    standing: standingOf(reason, allowance, now),
    by: given.map(({ person, role }) => ({ name: who(person), role })),
    stillNeeds,
    mayAllow,
    measures: allowance?.measures ?? null,
    first,
    differently,
    until: reason.allowedUntil ?? allowance?.until ?? null,
  };
}

function standingOf(reason: Finding, allowance: Allowance | null, now: Instant): Limit["standing"] {
  if (reason.severity === "stops") return "ended";
  if (reason.allowedUntil !== null) return "allowed";
  return allowance !== null && instantOf(allowance.until) > now ? "waits" : "not-allowed";
}

/** The limit itself is gone: the allowance is told until its end, so that nobody wonders where it went. */
function clearedLimit({ rule, by, measures, until }: Allowance, who: Who): Limit {
  const { mayAllow, inBrief } = ruleOf(rule);
  return {
    rule,
    what: inBrief.charAt(0).toUpperCase() + inBrief.slice(1),
    standing: "cleared",
    by: by.map(({ person, role }: { person: string; role: Role }) => ({ name: who(person), role })),
    stillNeeds: [],
    mayAllow,
    measures,
    first: null,
    differently: null,
    until,
  };
}

const ORDER: Readonly<Record<AllowedLimit["standing"], number>> = {
  ended: 0,
  waits: 1,
  "not-allowed": 2,
  allowed: 3,
  cleared: 4,
};
const byStanding = (left: AllowedLimit, right: AllowedLimit): number => ORDER[left.standing] - ORDER[right.standing];

/** Every request, and what was prepared without one. */
function vaporFreeOf(judged: readonly JudgedHolder[], requests: readonly VaporFreeRequest[]): VaporFreeView[] {
  return judged.flatMap((one) => {
    const { room } = one.holder.evidence;
    if (!room) return [];
    const asked = requests.filter(({ roomId }) => roomId === room.id);
    if (asked.length > 0) return asked.map((request) => vaporFreeRoom(one, request));
    return room.list?.needs.includes("vapor-free") ? [vaporFreeRoom(one, null)] : [];
  });
}

function vaporFreeRoom({ holder, judgement }: JudgedHolder, request: VaporFreeRequest | null): VaporFreeView {
  const { workstation, room } = holder.evidence;
  const finding = judgement.reasons.find(({ rule }) => rule === VAPOR_FREE);
  const isPrepared = finding?.severity === "note";
  return {
    requestId: request?.id ?? null,
    room: { id: room?.id ?? "", name: room?.name ?? "" },
    workstation: workstation && { id: workstation.id, tag: workstation.tag },
    neededAt: request ? timestampOf(request.neededAt) : (room?.list?.firstCase ?? null),
    by: request?.byName ?? null,
    note: request?.note ?? null,
    standing: workstation === null ? "no-workstation" : isPrepared ? "prepared" : "to-prepare",
    why: finding?.text ?? (workstation ? "Not for today's list: prepare it on its day" : "No workstation stands here"),
    flushMinutes: workstation?.model.vaporFreeMinutes ?? null,
    filterMinutes: workstation?.model.vaporFreeFilterMinutes ?? null,
  };
}
