import { answerWords } from "@/app/_parts/answer/answer-words";
import type { CheckView } from "@/lib/schemas/check";

/** What differs between the check a person was shown and the check as it is, one sentence each. */
export function changesSince(seen: CheckView, now: CheckView): string[] {
  const before = new Map(seen.recorded.map((one) => [one.key, one]));
  const items = new Map(now.items.map((item) => [item.key, item]));
  const answers = now.recorded.flatMap((one) => {
    const old = before.get(one.key);
    const item = items.get(one.key);
    if (!item || (old && JSON.stringify(old.answer) === JSON.stringify(one.answer))) return [];
    const was = old ? ` (you saw: ${answerWords(old.answer, item.form)})` : "";
    return [`${item.title}: ${answerWords(one.answer, item.form)}, by ${one.by}${was}`];
  });
  const signatures = now.signatures
    .slice(seen.signatures.length)
    .map(({ name, meaning }) => `${name} signed: ${meaning}`);
  return [...answers, ...signatures];
}
