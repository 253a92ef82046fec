"use client";

import { askedWords } from "@/app/_parts/asked-words";
import { minutesText, whenText } from "@/app/_parts/format";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useMayDo, useSession } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { rolesInWords } from "@/app/_parts/words";
import { Button } from "@/app/_ui/button.client";
import { LinkButton } from "@/app/_ui/link-button";
import { Panel } from "@/app/_ui/panel";
import type { RoomView } from "@/lib/schemas/room";
import type { Timestamp } from "@/lib/units/time";
import styles from "./room.module.css";

type Task = RoomView["tasks"][number];

interface TasksProps {
  view: RoomView;
  now: Timestamp;
  onChanged: () => void;
}

/** The work that clears the reasons, who is on it, and the way to take it. */
export function Tasks({ view, now, onChanged }: TasksProps) {
  const mayConfirm = useMayDo("confirm-check");
  const mayLook = useMayDo("look-at-fault");
  const tasks = view.tasks.filter(
    ({ kind, key }) => !(mayConfirm && kind === "confirm") && !(mayLook && isOfFault(key)),
  );
  if (tasks.length === 0) return null;
  return (
    <Panel title="Work, and who is on it">
      <ul className={styles.tasks}>
        {tasks.map((task) => (
          <TaskLine key={task.key} task={task} now={now} zone={view.facility.timeZone} onChanged={onChanged} />
        ))}
      </ul>
    </Panel>
  );
}

/** The provider's check and reported faults have panels of their own, for who may deal with them. */
const isOfFault = (key: string): boolean => key.startsWith("clear:fault-reported:");

interface TaskLineProps {
  task: Task;
  now: Timestamp;
  zone: string;
  onChanged: () => void;
}

function TaskLine({ task, now, zone, onChanged }: TaskLineProps) {
  const claim = useCommand("claim-task");
  const giveBack = useCommand("give-back-task");
  const session = useSession();
  const may = useMayDo("claim-task") && task.mayDo.some((role) => session?.roles.includes(role));
  const asked = askedWords(task, zone);
  const mine = task.claim !== null && task.claim.personId === session?.person.id;
  const run = async (command: typeof claim | typeof giveBack) => {
    await command.send({ key: task.key });
    onChanged();
  };
  return (
    <li className={styles.task}>
      <div>
        <h3>{task.title}</h3>
        <p className={styles.soft}>
          {minutesText(task.minutes)} · {rolesInWords(task.mayDo)}
        </p>
        <p>
          {task.claim
            ? `${mine ? "You" : task.claim.name}, since ${whenText(task.claim.since, now, zone)}`
            : "Nobody is on it yet"}
        </p>
        {asked ? <p>{asked}</p> : null}
      </div>
      <div className={styles.buttons}>
        {may && !task.claim ? (
          <Button busy={claim.busy} onClick={() => run(claim)}>
            Take it
          </Button>
        ) : null}
        {mine ? (
          <Button busy={giveBack.busy} onClick={() => run(giveBack)}>
            Give it back
          </Button>
        ) : null}
        {may ? (
          <LinkButton href={taskPath(task)} look={mine ? "primary" : "plain"}>
            {task.openCheckId ? "Go on" : "Open"}
          </LinkButton>
        ) : null}
      </div>
      <ProblemNotice problem={claim.problem ?? giveBack.problem} />
    </li>
  );
}

function taskPath(task: Task): string {
  return task.openCheckId ? `/checks/${task.openCheckId}` : `/tasks/${encodeURIComponent(task.key)}`;
}
