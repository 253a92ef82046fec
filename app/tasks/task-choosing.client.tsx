"use client";

import { useRouter } from "next/navigation";
import { useState } from "react";
import { countText, minutesText } from "@/app/_parts/format";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useMayDo } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Notice } from "@/app/_ui/notice";
import type { TaskView } from "@/lib/schemas/task";
import styles from "./task-choosing.module.css";
import { placeName } from "./task-groups";

/** Several tasks being chosen for one walk. */
export interface Choosing {
  has(key: string): boolean;
  turn(keys: readonly string[], on: boolean): void;
}

/** As many as the server takes at once. */
export const MOST_CHOSEN = 40;

export function useChoosing(): { choosing: Choosing | null; keys: readonly string[]; begin(): void; end(): void } {
  const [keys, setKeys] = useState<readonly string[] | null>(null);
  const choosing: Choosing | null = keys && {
    has: (key) => keys.includes(key),
    turn: (wanted, on) => {
      const rest = keys.filter((key) => !wanted.includes(key));
      setKeys(on ? [...rest, ...wanted].slice(0, MOST_CHOSEN) : rest);
    },
  };
  return { choosing, keys: keys ?? [], begin: () => setKeys([]), end: () => setKeys(null) };
}

interface ChooseBarProps {
  readonly tasks: readonly TaskView[];
  readonly keys: readonly string[];
  readonly onEnd: () => void;
  readonly onChanged: () => void;
}

export const pickListAddress = (keys: readonly string[]): string =>
  `/tasks/pick-list?${new URLSearchParams({ keys: keys.join(",") })}`;

/** What is chosen, along the bottom edge: the pick list for it, or all of it taken at once. */
export function ChooseBar({ tasks, keys, onEnd, onChanged }: ChooseBarProps) {
  const router = useRouter();
  const mayClaim = useMayDo("claim-tasks");
  const { send, busy, problem } = useCommand("claim-tasks");
  const [left, setLeft] = useState<readonly string[]>([]);
  // A task that is done meanwhile has left the list, and with it the choice.
  const chosen = tasks.filter(({ key }) => keys.includes(key));
  const minutes = chosen.reduce((sum, task) => sum + task.minutes, 0);
  const claim = async () => {
    const reply = await send({ keys: chosen.map(({ key }) => key) });
    onChanged();
    if (!reply?.ok) return;
    setLeft(reply.value.left.map(({ key, why }) => `${nameOf(chosen, key)}: ${why}`));
    if (reply.value.left.length === 0) onEnd();
  };
  return (
    <section className={styles.chooseBar} aria-label="Chosen tasks">
      <p className={styles.chosenLine} role="status">
        {chosen.length === 0
          ? "Nothing chosen yet"
          : `${countText(chosen.length, "task")} chosen, ${minutesText(minutes)}`}
        {chosen.length === MOST_CHOSEN ? ": no more fit one list" : ""}
      </p>
      {left.length > 0 ? (
        <Notice tone="heed" title="The others are yours; these could not be taken" announce="status">
          <ul>
            {left.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </Notice>
      ) : null}
      <ProblemNotice problem={problem} />
      <div className={styles.chooseActions}>
        {chosen.length > 0 ? (
          <Button
            look="primary"
            size="large"
            onClick={() => router.push(pickListAddress(chosen.map(({ key }) => key)))}
          >
            Pick list
          </Button>
        ) : null}
        {mayClaim && chosen.length > 0 ? (
          <Button size="large" busy={busy} onClick={claim}>
            Claim all
          </Button>
        ) : null}
        <Button size="large" onClick={onEnd}>
          Done
        </Button>
      </div>
    </section>
  );
}

function nameOf(tasks: readonly TaskView[], key: string): string {
  const task = tasks.find((one) => one.key === key);
  return task ? `${placeName(task)} ${task.title}` : key;
}
