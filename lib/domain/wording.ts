import type { Answer } from "@/lib/domain/answer";
import type { WorkstationEvidence } from "@/lib/domain/evidence";
import { type ItemId, itemOf, type Subject, type SubjectKind } from "@/lib/domain/items";
import type { Readiness } from "@/lib/domain/judgement";
import type { Agent, Gas } from "@/lib/domain/vocabulary";
import type { Quantity, Unit } from "@/lib/units/quantity";
import type { LocalDate } from "@/lib/units/time";

/** The trade's words and numbers as sentences write them. */

export const READINESS_NAMES: Readonly<Record<Readiness, string>> = {
  ready: "Ready",
  "ready-limited": "Ready, limited",
  "do-not-use": "Do not use",
  "to-check": "To check",
  "out-of-service": "Out of service",
};

export const GAS_NAMES: Readonly<Record<Gas, string>> = {
  oxygen: "Oxygen",
  air: "Air",
  "nitrous-oxide": "Nitrous oxide",
};

export const AGENT_NAMES: Readonly<Record<Agent, string>> = {
  sevoflurane: "Sevoflurane",
  desflurane: "Desflurane",
  isoflurane: "Isoflurane",
  halothane: "Halothane",
  enflurane: "Enflurane",
};

const SYMBOLS: Partial<Record<Unit, string>> = { cmH2O: "cmH₂O" };

/** 1,955 rather than 1955; at most two decimals, and none that says nothing. */
export function numeral(value: number): string {
  const rounded = Math.round(value * 100) / 100;
  const [whole = "0", decimals] = String(Math.abs(rounded)).split(".");
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ",");
  return `${rounded < 0 ? "−" : ""}${grouped}${decimals ? `.${decimals}` : ""}`;
}

export function said(quantity: Quantity): string {
  return `${numeral(quantity.value)} ${SYMBOLS[quantity.unit] ?? quantity.unit}`;
}

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/** 23 Nov 2026: a day that no country reads the wrong way round. */
export function saidDate(date: LocalDate): string {
  const [year, month, day] = date.split("-");
  return `${Number(day)} ${MONTHS[Number(month) - 1]} ${year}`;
}

/** "suction, APL valve and 3 more": long lists are cut, never silently. */
export function listed(words: readonly string[], most = 3): string {
  if (words.length > most + 1) return `${words.slice(0, most).join(", ")} and ${words.length - most} more`;
  if (words.length < 2) return words.join("");
  return `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}

export const lowerFirst = (text: string): string =>
  /^[A-Z]{2}/.test(text) ? text : text.charAt(0).toLowerCase() + text.slice(1);

export const upperFirst = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** The name of a subject as a person at the workstation would point at it; empty where the item alone says it. */
export function subjectName(subject: Subject, workstation: WorkstationEvidence | null): string {
  if (subject.kind === "pipeline") return `${GAS_NAMES[subject.id as Gas] ?? subject.id} pipeline`;
  if (subject.kind === "cylinder") {
    const cylinder = workstation?.fitted.cylinders.find(({ id }) => id === subject.id);
    return cylinder ? `${GAS_NAMES[cylinder.gas]}, yoke ${cylinder.position} (${cylinder.size})` : "Cylinder";
  }
  if (subject.kind === "vaporizer") {
    const vaporizer = workstation?.fitted.vaporizers.find(({ id }) => id === subject.id);
    return vaporizer ? `${AGENT_NAMES[vaporizer.agent]}, mount ${vaporizer.mount}` : "Vaporizer";
  }
  if (subject.kind === "absorbent" && (workstation?.fitted.absorbent.length ?? 0) > 1) {
    const absorbent = workstation?.fitted.absorbent.find(({ id }) => id === subject.id);
    return absorbent ? `Absorbent, ${absorbent.position}` : "Absorbent";
  }
  return "";
}

const KIND_NAMES: Readonly<Record<SubjectKind, string>> = {
  workstation: "Workstation",
  room: "Room",
  cylinder: "Cylinder",
  vaporizer: "Vaporizer",
  absorbent: "Absorbent",
  "oxygen-sensor": "Oxygen sensor",
  pipeline: "Pipeline",
};

/** The subject where no item names it. */
export const itemlessName = (subject: Subject, workstation: WorkstationEvidence | null): string =>
  subjectName(subject, workstation) || KIND_NAMES[subject.kind];

const MOST_ITEMS = 4;

/** "cylinder gauge and yoke leak (oxygen, yoke 1); breathing-system leak": items by what they are about, in the order given. */
export function itemsInWords(
  items: readonly { readonly item: ItemId; readonly subject: Subject }[],
  workstation: WorkstationEvidence | null,
): string {
  const named = items.length > MOST_ITEMS + 1 ? items.slice(0, MOST_ITEMS) : items;
  const groups = new Map<string, string[]>();
  for (const { item, subject } of named) {
    const about = lowerFirst(subjectName(subject, workstation)).replace(/ \(.*\)$/, "");
    groups.set(about, [...(groups.get(about) ?? []), lowerFirst(itemOf(item).name)]);
  }
  const said = [...groups].map(([about, names]) =>
    about ? `${listed(names, names.length)} (${about})` : listed(names, names.length),
  );
  const left = items.length - named.length;
  return left === 0 ? said.join("; ") : `${said.join("; ")}; and ${left} more`;
}

/** What was answered, in a few words for a history line. */
export function saidAnswer(answer: Answer): string {
  switch (answer.kind) {
    case "pass":
      return answer.passed ? "pass" : "fail";
    case "number":
      return said(answer.reading);
    case "gauge": {
      const open = answer.openWhenRead ? "valve open" : "valve shut";
      return `${said(answer.reading)}, read with the ${open}${answer.openWhenRead && !answer.shutAgain ? ", left open" : ""}`;
    }
    case "choice":
      return answer.choice.replaceAll("-", " ");
    case "timed":
      return answer.held ? `held ${numeral(answer.seconds)} s` : `did not hold, ${numeral(answer.seconds)} s`;
  }
}
