import type { Context, Refusal } from "@/lib/commands/command";
import type { Answer } from "@/lib/domain/answer";
import { answerKey, type GivenAnswer, standingAnswers } from "@/lib/domain/check/model";
import type { Evidence } from "@/lib/domain/evidence";
import { type ItemId, itemOf, type Subject } from "@/lib/domain/items";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import type { CheckItem } from "@/lib/domain/procedure/decide";
import { checkMarks } from "@/lib/domain/rules/policy/check-marks";
import { valuesOf } from "@/lib/domain/rules/settings";
import { answerProblem, verdictOf } from "@/lib/domain/verdict";
import type { Role } from "@/lib/domain/vocabulary";
import { whyNotAnswered } from "@/lib/domain/who-answers";
import type { NewObservation } from "@/lib/storage/checks";

export interface AnswerInput {
  readonly item: ItemId;
  readonly subject: Subject;
  readonly answer: Answer;
}

/** Answers that were asked, possible and judged, ready to be stored. */
export interface JudgedAnswer extends AnswerInput {
  readonly key: string;
  readonly verdict: GivenAnswer["verdict"];
  readonly title: string;
}

/**
 * Takes answers against the questions that were asked. The first impossible one, or one that is for others, refuses the whole request by its field,
 * so that nothing is half recorded.
 */
export function judgeAnswers(
  given: readonly AnswerInput[],
  asked: readonly CheckItem[],
  place: Evidence,
  roles: readonly Role[],
): Outcome<readonly JudgedAnswer[], Refusal> {
  const questions = new Map(asked.map((item) => [item.key, item]));
  const { providerAlone } = valuesOf(checkMarks, place);
  const judged: JudgedAnswer[] = [];
  for (const [index, { item, subject, answer }] of given.entries()) {
    const key = answerKey(item, subject);
    const question = questions.get(key);
    if (!question)
      return refused(
        "invalid",
        `${itemOf(item).name} is not asked here: the equipment may have changed since the check was opened.`,
        `answers.${index}.item`,
      );
    const notTheirs = whyNotAnswered(question, roles, providerAlone);
    if (notTheirs) return refused("not-allowed", notTheirs, `answers.${index}.item`);
    const problem = answerProblem(question, answer);
    if (problem)
      return refused("invalid", `${question.title}: ${problem.message}`, `answers.${index}.answer.${problem.field}`);
    judged.push({
      item,
      subject,
      answer,
      key,
      verdict: verdictOf(answer, { item, subject, place }),
      title: question.title,
    });
  }
  return done(judged);
}

/** The rows of judged answers. The item says who keeps the answer: the workstation, or the room it stood in. */
export function observationsOf(
  answers: readonly JudgedAnswer[],
  check: {
    readonly id: string;
    readonly workstationId: string;
    readonly roomId: string | null;
    readonly answers: readonly GivenAnswer[];
  },
  context: Context,
): NewObservation[] {
  // A slip is corrected by the person who made it; somebody else's other answer is a second look, and both stand.
  const before = standingAnswers(check.answers.filter(({ by }) => by === context.actor.personId));
  return answers.map(({ item, subject, answer, key, verdict }) => {
    const byRoom = itemOf(item).about === "room";
    return {
      id: context.newId(),
      checkId: check.id,
      item,
      subject,
      workstationId: byRoom ? null : check.workstationId,
      roomId: byRoom ? check.roomId : null,
      answer,
      verdict,
      observedAt: context.now,
      known: { source: "server" },
      by: context.actor.personId,
      role: context.role,
      recordedAt: context.now,
      supersedes: before.get(key)?.id ?? null,
    };
  });
}

/** "Cylinder gauge: fail" lines for the history. */
export const answerLines = (answers: readonly JudgedAnswer[], say: (answer: Answer) => string): string[] =>
  answers.map(({ title, answer, verdict }) => `${title}: ${say(answer)}${verdict === "fail" ? " (fails)" : ""}`);
