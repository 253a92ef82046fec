import type { AnsweredBy, AnswerForm } from "@/lib/domain/procedure/model";
import type { ProceduresView } from "@/lib/schemas/procedure";

export type Kind = ProceduresView["kinds"][number]["kind"];

export const KIND_WORDS: Record<Kind, { readonly name: string; readonly when: string }> = {
  daily: { name: "Daily check", when: "once a check day, and whole after service" },
  "each-case": { name: "Before each case", when: "between cases" },
  "provider-change": { name: "Change of provider", when: "when somebody takes over a running case" },
  "close-out": { name: "Close-out", when: "at the end of the list" },
};

export const BY_WORDS: Record<AnsweredBy, string> = {
  either: "whoever does the check",
  technician: "technician or biomedical engineer",
  provider: "provider",
  both: "technician, and the provider's second look",
  "not-delegated": "the provider who signs, and nobody for them",
};

const WHERE_WORDS: Readonly<Record<string, string>> = {
  nitrousOxideAtHand: "where nitrous oxide is at hand",
  outletSelector: "on models with a gas-outlet selector",
  wasteGasActive: "in rooms with active waste-gas extraction",
  vacuum: "in rooms with piped vacuum",
  vaporizerFitted: "where a vaporizer is mounted",
  indicatorAbsorbent: "with an absorbent that changes colour",
  selfTest: "on models with a self-test",
  unlessSelfTestCovers: "not where the self-test covers it",
};

type Item = NonNullable<ProceduresView["kinds"][number]["draft"]>["text"]["items"][number];

/** Everything besides its words that somebody who approves an item puts their name to. */
export function itemFacts({ by, answer, applies, limits, failing, sameUserMaySkip }: Item): string[] {
  const where = Object.entries(applies).flatMap(([field, value]) => {
    if (field === "leakTest") return [`leak test by ${(value as readonly string[]).join(" or ").replaceAll("-", " ")}`];
    if (field === "gas" || field === "scheme") return [`${String(value).replaceAll("-", " ")} alone`];
    return value === true ? [WHERE_WORDS[field] ?? field] : [];
  });
  const unit = answer.kind === "number" ? (answer.unit === "site-pressure" ? " psi" : ` ${answer.unit}`) : "";
  return [
    BY_WORDS[by],
    answerWords(answer),
    where.length === 0 ? "asked everywhere" : `asked ${where.join(", ")}`,
    limits?.atLeast === undefined ? null : `fails under ${limits.atLeast}${unit}`,
    limits?.atMost === undefined ? null : `fails over ${limits.atMost}${unit}`,
    failing === undefined
      ? null
      : failing === "stops"
        ? "a failed answer stops the workstation"
        : "a failed answer is work, and stops nothing",
    sameUserMaySkip ? "the same user may leave it out on successive cases" : null,
  ].filter((fact) => fact !== null);
}

const ANSWER_WORDS: Record<AnswerForm["kind"], string> = {
  pass: "yes or no",
  number: "a reading",
  gauge: "a gauge, with its valve open",
  choice: "one of several",
  timed: "a test that runs its time",
};

/** "a reading in mL/min, 0 to 2,000": how it is answered and in which unit. */
export function answerWords(answer: AnswerForm): string {
  const words = ANSWER_WORDS[answer.kind];
  if (answer.kind === "pass") return `${words}: ${answer.yes} / ${answer.no}`;
  if (answer.kind === "timed") return `${words}: ${answer.seconds} s`;
  if (answer.kind === "choice") return `${words}: ${answer.options.map(({ label }) => label).join(", ")}`;
  const unit = answer.unit === "site-pressure" ? "the site's pressure unit" : answer.unit;
  return answer.kind === "gauge"
    ? `${words}, in ${unit}`
    : `${words} in ${unit}, from ${answer.least} to ${answer.most}`;
}
