import type { Evidence, EvidenceEvent } from "@/lib/domain/evidence";
import { itemOf } from "@/lib/domain/items";
import { judge } from "@/lib/domain/judge";
import type { Finding, Judgement, Owed, Readiness } from "@/lib/domain/judgement";
import { missingFor } from "@/lib/domain/needs";
import { expandProcedure } from "@/lib/domain/procedure/decide";
import type { Procedure } from "@/lib/domain/procedure/model";
import { morning } from "@/lib/domain/rules/policy/morning";
import { valuesOf } from "@/lib/domain/rules/settings";
import { owesWholeCheck } from "@/lib/domain/task/decide";
import type { Limit } from "@/lib/domain/vocabulary";
import { numeral } from "@/lib/domain/wording";
import { type Quantity, valueIn } from "@/lib/units/quantity";

/** A workstation that might be swapped in, with where it is. */
export interface Spare {
  readonly workstationId: string;
  readonly tag: string;
  readonly model: string;
  readonly store: { readonly id: string; readonly name: string } | null;
  /** Rooms between it and here along the walk; null where nobody said where its store lies. */
  readonly distance: number | null;
  readonly evidence: Evidence;
}

export interface SuitableSpare {
  readonly spare: Spare;
  readonly state: Readiness;
  readonly why: string;
  readonly limits: readonly Limit[];
  readonly owed: readonly Owed[];
  readonly minutes: number;
  readonly roomRemains: readonly string[];
}

export interface UnsuitableSpare {
  readonly spare: Spare;
  readonly why: string;
  readonly checked: boolean;
  /** May be taken all the same, by somebody who knows why not. */
  readonly acceptable: boolean;
}

/** The id of the event that a swap would record; it stands in the evidence of what would be. */
const WOULD_MOVE = "would-move-in";

/**
 * What the evidence of a room would be with another workstation in it, at the same moment: the room's own answers and events stay, those
 * about the workstation come with it, and that it has just been moved in is an event like any other.
 */
export function asIfIn(room: Evidence, spare: Evidence, procedure: Pick<Procedure, "items"> | null): Evidence {
  const { workstation } = spare;
  if (room.room === null || workstation === null) throw new Error("a spare is judged in a room");
  const moved: EvidenceEvent = {
    id: WOULD_MOVE,
    kind: "moved-in",
    subject: { kind: "workstation", id: workstation.id },
    at: room.now,
    zone: null,
  };
  const place = { facility: room.facility, settings: room.settings, room: room.room, workstation };
  const known = spare.procedure ?? room.procedure;
  return {
    ...room,
    workstation,
    procedure: procedure &&
      known && {
        ...known,
        owes: expandProcedure(procedure, place).map(({ item, subject }) => ({ item, subject })),
      },
    observations: [...aboutRoom(room), ...aboutWorkstation(spare)],
    // The room's own checks stay: they sign the answers that the room keeps.
    checks: once([...spare.checks, ...room.checks]),
    events: once([...spare.events.filter(({ subject }) => subject.kind !== "room"), ...room.events, moved]),
  };
}

const aboutRoom = ({ observations }: Evidence) => observations.filter(({ item }) => itemOf(item).about === "room");
const aboutWorkstation = ({ observations }: Evidence) =>
  observations.filter(({ item }) => itemOf(item).about === "workstation");

function once<Row extends { readonly id: string }>(rows: readonly Row[]): Row[] {
  return [...new Map(rows.map((row) => [row.id, row])).values()];
}

/** The workstation judged by itself, whatever room it stands in: what it brings along. */
export function byItself(evidence: Evidence): Judgement {
  return judge(
    evidence.room === null
      ? evidence
      : {
          ...evidence,
          room: null,
          observations: aboutWorkstation(evidence),
          procedure: evidence.procedure && {
            ...evidence.procedure,
            owes: evidence.procedure.owes.filter(({ item }) => itemOf(item).about === "workstation"),
          },
        },
  );
}

export type SpareVerdict =
  | { readonly ok: true; readonly checked: boolean }
  | { readonly ok: false; readonly why: string };

/** May this workstation be swapped in anywhere? Unchecked is not failed: it may, by somebody who says so. */
export function mayBeSwappedIn(evidence: Evidence): SpareVerdict {
  const { state, reasons } = byItself(evidence);
  if (state === "out-of-service" || state === "do-not-use")
    return { ok: false, why: reasons[0]?.text ?? state.replaceAll("-", " ") };
  return { ok: true, checked: state !== "to-check" };
}

/** The spares for a room: checked ones that fit its list, nearest first, with what each owes on arrival; and the others, with why not. */
export function chooseSpares(
  room: Evidence,
  spares: readonly Spare[],
  procedure: Pick<Procedure, "items"> | null,
): { readonly suitable: readonly SuitableSpare[]; readonly unsuitable: readonly UnsuitableSpare[] } {
  const suitable: SuitableSpare[] = [];
  const unsuitable: UnsuitableSpare[] = [];
  for (const spare of spares) {
    const verdict = mayBeSwappedIn(spare.evidence);
    if (!verdict.ok) {
      unsuitable.push({ spare, why: verdict.why, checked: false, acceptable: false });
      continue;
    }
    const there = judge(asIfIn(room, spare.evidence, procedure));
    const missing = missingFor(there.limits, room.room?.list ?? null);
    if (missing.length > 0) {
      const what = missing.join(", ").replaceAll("-", " ");
      const why = `Not for this list: it would lack ${what}`;
      unsuitable.push({ spare, why, checked: verdict.checked, acceptable: true });
    } else if (!verdict.checked) {
      const why = "Not checked today: its whole check would be owed here";
      unsuitable.push({ spare, why, checked: false, acceptable: true });
    } else suitable.push(suitableOf(spare, there, room));
  }
  return {
    suitable: suitable.sort(byNearest),
    unsuitable: unsuitable.sort((left, right) => byTag(left.spare, right.spare)),
  };
}

function suitableOf(spare: Spare, there: Judgement, room: Evidence): SuitableSpare {
  const owed = there.owed;
  const { swap, recheckItem, fullCheck } = valuesOf(morning, room);
  const afterwards = owesWholeCheck(there) ? minutesOf(fullCheck) : owed.length * minutesOf(recheckItem);
  return {
    spare,
    state: byItself(spare.evidence).state,
    why: whyIt(spare, owed),
    limits: there.limits,
    owed,
    minutes: minutesOf(swap) + afterwards,
    roomRemains: there.reasons.filter((reason) => staysInRoom(reason)).map(({ text }) => text),
  };
}

/** A checked spare that would be stopped here is stopped by what the room itself lacks. */
const staysInRoom = ({ severity }: Finding): boolean => severity === "stops" || severity === "out";

function whyIt({ distance, store }: Spare, owed: readonly Owed[]): string {
  const where = distance === null ? (store ? `in ${store.name}` : "") : nearness(distance);
  const owes =
    owed.length === 0
      ? "owes nothing on arrival"
      : `owes ${owed.length} ${owed.length === 1 ? "item" : "items"} on arrival`;
  return ["Checked, fits the list", where, owes].filter((part) => part !== "").join(", ");
}

const nearness = (distance: number): string =>
  distance === 0 ? "next to this room" : `${numeral(distance)} ${distance === 1 ? "room" : "rooms"} away`;

const byTag = (left: Spare, right: Spare): number => (left.tag < right.tag ? -1 : left.tag > right.tag ? 1 : 0);

const byNearest = (left: SuitableSpare, right: SuitableSpare): number =>
  compared(left.spare.distance, right.spare.distance) || left.minutes - right.minutes || byTag(left.spare, right.spare);

/** Where nobody knows how far it is, it comes after those of which that is known. */
function compared(left: number | null, right: number | null): number {
  if (left === right) return 0;
  if (left === null) return 1;
  return right === null ? -1 : left - right;
}

const minutesOf = (time: Quantity): number => valueIn(time, "min") ?? 0;
