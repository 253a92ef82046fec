"use client";

import { useReducer, useState } from "react";
import type { Typed } from "@/app/_parts/answer/typed";
import { type Problem, postJson } from "@/app/_parts/api.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { newRequestId } from "@/app/_parts/request-id";
import { Button } from "@/app/_ui/button.client";
import { Page } from "@/app/_ui/page";
import type { RehearsalQuestionView, RehearsalResultView, RehearsalView } from "@/lib/schemas/rehearsal";
import styles from "./rehearsal.module.css";
import { RehearsalItem } from "./rehearsal-item.client";
import { RehearsalResult } from "./rehearsal-result";
import { nextRehearsal, startRehearsal, typedAt } from "./rehearsal-state";

const END = "end";

/** One item after the other, as in a real check; at its end what was found and what was missed. */
export function RehearsalRunner({ rehearsal }: { rehearsal: RehearsalView }) {
  const { questions, seed, faults } = rehearsal;
  const [state, tell] = useReducer(nextRehearsal, startRehearsal(questions[0]?.key ?? END));
  const [result, setResult] = useState<RehearsalResultView | null>(null);
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<Problem | null>(null);
  const question = questions.find(({ key }) => key === state.current) ?? null;
  const after = (key: string) => questions[questions.findIndex((one) => one.key === key) + 1]?.key ?? END;
  const answered = Object.keys(state.answers).length;

  const finish = async () => {
    setBusy(true);
    const answers = Object.entries(state.answers).map(([key, answer]) => ({ key, answer, seen: state.seen[key] ?? 0 }));
    const reply = await postJson<RehearsalResultView>(
      "/api/v1/rehearsal/result",
      { seed, faults, answers },
      { key: newRequestId() },
    );
    setBusy(false);
    if (reply.ok) setResult(reply.value);
    else setProblem(reply.problem);
  };
  if (result) return <RehearsalResult rehearsal={rehearsal} result={result} />;
  const complete = (of: RehearsalQuestionView, typed: Typed) =>
    tell({ type: "answered", question: of, typed, next: after(of.key) });

  return (
    <Page narrow>
      <header className={styles.head}>
        <h1>Rehearsal</h1>
        <p>
          Imagined workstation {seed}, {faults} {faults === 1 ? "fault" : "faults"} planted. {rehearsal.procedure.name},
          version {rehearsal.procedure.version}. <strong>Not a record.</strong>
        </p>
        <progress className={styles.progress} max={questions.length} value={answered} aria-label="Items answered" />
      </header>
      {question ? (
        <RehearsalItem
          key={question.key}
          question={question}
          position={`${questions.indexOf(question) + 1} of ${questions.length}`}
          seen={state.seen[question.key] ?? 0}
          typed={typedAt(state, question)}
          error={state.error}
          onLook={() => tell({ type: "looked", key: question.key })}
          onTyped={(typed) => tell({ type: "typed", key: question.key, typed })}
          onComplete={(typed) => complete(question, typed)}
          onSkip={() => tell({ type: "went", to: after(question.key) })}
        />
      ) : (
        <section className={styles.end} aria-labelledby="rehearsal-end">
          <h2 id="rehearsal-end">
            {answered} of {questions.length} items answered
          </h2>
          <p>See what was planted, or go back to an item that you left out.</p>
          <ul className={styles.left}>
            {questions
              .filter(({ key }) => state.answers[key] === undefined)
              .map(({ key, title }) => (
                <li key={key}>
                  <Button look="quiet" onClick={() => tell({ type: "went", to: key })}>
                    {title}
                  </Button>
                </li>
              ))}
          </ul>
          <ProblemNotice problem={problem} />
          <Button look="primary" size="large" busy={busy} onClick={() => void finish()}>
            Show what was planted
          </Button>
        </section>
      )}
    </Page>
  );
}
