/** The words of answers that are chosen from a list, with what each is worth as a share. One place for forms, rules and verdicts. */
interface Choice {
  readonly value: string;
  readonly label: string;
  readonly share: number;
}

/** How much of the absorbent has changed colour; each word stands for the upper end of what it covers. */
const COLOURS: readonly Choice[] = [
  { value: "none", label: "None", share: 0 },
  { value: "quarter", label: "Up to a quarter", share: 1 / 4 },
  { value: "half", label: "Up to a half", share: 1 / 2 },
  { value: "two-thirds", label: "Up to two thirds", share: 2 / 3 },
  { value: "all", label: "More", share: 1 },
];

/** How full a vaporizer's sight glass is; each word stands for the lower end of what it covers. */
const FILLS: readonly Choice[] = [
  { value: "empty", label: "Empty, or at the minimum mark", share: 0 },
  { value: "quarter", label: "A quarter or more", share: 1 / 4 },
  { value: "half", label: "Half or more", share: 1 / 2 },
  { value: "three-quarters", label: "Three quarters or more", share: 3 / 4 },
  { value: "full", label: "Full", share: 1 },
];

const shares = (choices: readonly Choice[]): ReadonlyMap<string, number> =>
  new Map(choices.map(({ value, share }) => [value, share]));
const labels = (choices: readonly Choice[]) => choices.map(({ value, label }) => ({ value, label }));

export const COLOUR_SHARES = shares(COLOURS);
export const COLOUR_LABELS = labels(COLOURS);
export const FILL_SHARES = shares(FILLS);
export const FILL_LABELS = labels(FILLS);
