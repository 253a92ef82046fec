import { type Refused, refused } from "./calculated";
import { CONDITION_CHOICES, type ConditionName, type Conditions } from "./electrical-limits";

type Choice = { readonly name: ConditionName; readonly choice: string };

const ALL: readonly Choice[] = (Object.keys(CONDITION_CHOICES) as ConditionName[]).flatMap((name) =>
  CONDITION_CHOICES[name].map((choice) => ({ name, choice })),
);

const bare = (text: string) => text.toLowerCase().replace(/[^a-z0-9]/g, "");

/** "ground intact", "intact ground", "intact"; "type BF", "BF"; "with cord". */
function formsOf({ name, choice }: Choice): string[] {
  const short = choice.replace("device-with-", "with-");
  return [choice, short, `${name} ${choice}`, `${choice} ${name}`, `type ${choice}`].map(bare);
}

/** Conditions written as words, as a test sheet lists them. A word that names none, or two of one kind, is refused. */
export function conditionsFromWords(words: readonly string[]): Conditions | Refused<"unknown-condition"> {
  const found = new Map<ConditionName, string>();
  for (const word of words) {
    const meant = ALL.find((one) => formsOf(one).includes(bare(word)));
    if (!meant) return unknown(`"${word}" is not a condition.`);
    const before = found.get(meant.name);
    if (before !== undefined && before !== meant.choice) {
      return unknown(`The condition ${meant.name} is both ${before} and ${meant.choice}.`);
    }
    found.set(meant.name, meant.choice);
  }
  return Object.fromEntries(found) as Conditions;
}

function unknown(what: string): Refused<"unknown-condition"> {
  return refused(
    "unknown-condition",
    `${what} Conditions are: ${ALL.map(({ name, choice }) => `${name} ${choice}`).join(", ")}.`,
  );
}
