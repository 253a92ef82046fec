/** What must be reached: at most or at least this, by the ratio if there is one, else by the value. */
export interface Target {
  readonly atMost?: number;
  readonly atLeast?: number;
  readonly unit: string;
}

export interface Line {
  readonly what: string;
  readonly value: string;
  /** Compared with what was measured beside it in the same run: the number that travels between machines. */
  readonly ratio?: { readonly value: number; readonly to: string };
  readonly target?: Target & { readonly reached: number };
}

export const milliseconds = (value: number): string => `${value.toFixed(value < 10 ? 2 : 1)} ms`;
export const perSecond = (value: number): string => `${Math.round(value).toLocaleString("en-US")}/s`;

export function printSection(title: string, lines: readonly Line[]): void {
  console.log(`\n${title}`);
  for (const line of lines) {
    console.log(`  ${line.what}`);
    console.log(`    ${[line.value, ratioText(line), targetText(line)].filter(Boolean).join("   ")}`);
  }
}

const ratioText = ({ ratio }: Line): string => (ratio ? `${ratio.value.toFixed(2)} x ${ratio.to}` : "");

function targetText({ target }: Line): string {
  if (!target) return "";
  const { atMost, atLeast, unit, reached } = target;
  const met = (atMost === undefined || reached <= atMost) && (atLeast === undefined || reached >= atLeast);
  const limit = atMost === undefined ? `at least ${number(atLeast ?? 0)}` : `at most ${number(atMost)}`;
  return `target: ${limit} ${unit} (${met ? "reached" : "not reached"})`;
}

const number = (value: number): string => value.toLocaleString("en-US");
