"use client";

import { createContext, type ReactNode, useContext, useState } from "react";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useMayDo, useSession } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Dialog } from "@/app/_ui/dialog.client";
import { LinkButton } from "@/app/_ui/link-button";
import type { TaskView } from "@/lib/schemas/task";
import { AskForm } from "./ask-form.client";
import { mayDoIt } from "./task-filter";
import { placeName } from "./task-groups";
import { CannotForm, HandOverForm, PauseForm, TakeOverForm } from "./task-move-forms.client";

type Open = (task: TaskView) => void;
const OpenMoves = createContext<Open>(() => undefined);

interface TaskMovesHostProps {
  readonly onChanged: () => void;
  readonly children: ReactNode;
}

/**
 * Holds the dialog above the list: a task that changes hands moves to another group, and what somebody is just reading or
 * answering about it must not go away with its old place. The task stays as it was when the dialog was opened.
 */
export function TaskMovesHost({ onChanged, children }: TaskMovesHostProps) {
  const [task, setTask] = useState<TaskView | null>(null);
  const close = () => {
    setTask(null);
    onChanged();
  };
  return (
    <OpenMoves value={setTask}>
      {children}
      <Dialog open={task !== null} title={task ? `${placeName(task)} ${task.title}` : ""} onClose={close}>
        {task ? <Moves task={task} onDone={close} /> : null}
      </Dialog>
    </OpenMoves>
  );
}

/** Everything else that can be said about a task, one tap away from it and never under the thumb by accident. */
export function TaskMoves({ task }: { task: TaskView }) {
  const open = useContext(OpenMoves);
  return (
    <Button size="large" data-more="" aria-label={`More: ${placeName(task)} ${task.title}`} onClick={() => open(task)}>
      More
    </Button>
  );
}

type Move = "pause" | "hand-over" | "take-over" | "cannot" | "ask";

const MOVE_WORDS: Record<Move, string> = {
  pause: "Pause",
  "hand-over": "Hand over",
  "take-over": "Take over",
  cannot: "I cannot do it",
  ask: "Ask somebody to see to it",
};

/** What this person may say about it as it stands: the moves first, then the chosen one's few questions. */
function Moves({ task, onDone }: { task: TaskView; onDone: () => void }) {
  const [move, setMove] = useState<Move | null>(null);
  const moves = useMovesOf(task);
  if (move === "pause") return <PauseForm task={task} onDone={onDone} />;
  if (move === "hand-over") return <HandOverForm task={task} onDone={onDone} />;
  if (move === "take-over") return <TakeOverForm task={task} onDone={onDone} />;
  if (move === "ask") return <AskForm task={task} onDone={onDone} />;
  if (move === "cannot") return <CannotForm task={task} onDone={onDone} />;
  return (
    <>
      <p>{task.why}</p>
      <StartOrGoOn task={task} onDone={onDone} />
      <GiveBack task={task} onDone={onDone} />
      {moves.map((one) => (
        <Button key={one} size="large" wide onClick={() => setMove(one)}>
          {MOVE_WORDS[one]}
        </Button>
      ))}
      {task.room ? (
        <LinkButton href={`/rooms/${task.room.id}`} size="large" wide>
          Open {task.room.name}
        </LinkButton>
      ) : null}
    </>
  );
}

function useMovesOf(task: TaskView): readonly Move[] {
  const session = useSession();
  const mayWork = useMayDo("start-task");
  const viewer = { personId: session?.person.id ?? "", roles: session?.roles ?? [] };
  // Anybody may see that work will not be done in time; one person at a time is asked.
  const ask: readonly Move[] = task.escalation === null ? ["ask"] : [];
  if (!mayWork) return ask;
  if (task.claim?.personId === viewer.personId) {
    return task.work?.state === "paused" ? ["hand-over", "cannot", ...ask] : ["pause", "hand-over", "cannot", ...ask];
  }
  if (!mayDoIt(task, viewer)) return ask;
  return task.claim ? ["take-over", ...ask] : ["cannot", ...ask];
}

/** A check is begun by opening it; other work is said to be begun, so that others see that somebody is at it. */
function StartOrGoOn({ task, onDone }: { task: TaskView; onDone: () => void }) {
  const me = useSession()?.person.id;
  const mayStart = useMayDo("start-task");
  const { send, busy, problem } = useCommand("start-task");
  const mine = task.claim?.personId === me;
  if (!mayStart || !mine || task.work?.state === "started") return null;
  if (task.kind === "check" && task.work?.state !== "paused") return null;
  const start = async () => {
    const reply = await send({ key: task.key });
    if (reply?.ok) onDone();
  };
  return (
    <>
      <Button look="primary" size="large" wide busy={busy} onClick={start}>
        {task.work?.state === "paused" ? "Go on with it" : "I begin now"}
      </Button>
      <ProblemNotice problem={problem} />
    </>
  );
}

function GiveBack({ task, onDone }: { task: TaskView; onDone: () => void }) {
  const me = useSession()?.person.id;
  const { send, busy, problem } = useCommand("give-back-task");
  if (task.claim?.personId !== me) return null;
  const give = async () => {
    const reply = await send({ key: task.key });
    if (reply?.ok) onDone();
  };
  return (
    <>
      <Button size="large" wide busy={busy} onClick={give}>
        Give back to the list
      </Button>
      <ProblemNotice problem={problem} />
    </>
  );
}
