import type { TaskView } from "@/lib/schemas/task";
import { clockText } from "./format";

/** Who was asked to see to a task, and whether they answered; null where nobody is. */
export function askedWords({ escalation }: Pick<TaskView, "escalation">, zone: string): string | null {
  if (escalation === null) return null;
  const { name, at, answeredAt } = escalation;
  const answer = answeredAt ? `has it since ${clockText(answeredAt, zone)}` : "no answer so far";
  return `${name} was asked at ${clockText(at, zone)}, ${answer}`;
}
