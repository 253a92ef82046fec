"use client";

import { askedWords } from "@/app/_parts/asked-words";
import { clockText, minutesText, whenText } from "@/app/_parts/format";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useSay } from "@/app/_parts/say.client";
import { useMayDo, useSession } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { rolesInWords } from "@/app/_parts/words";
import { Button } from "@/app/_ui/button.client";
import { classNames } from "@/app/_ui/class-names";
import { VisuallyHidden } from "@/app/_ui/visually-hidden";
import type { TaskView } from "@/lib/schemas/task";
import type { OpenCheckView } from "@/lib/schemas/work";
import { OpenTask } from "./open-task.client";
import { SeverityMark } from "./severity-mark";
import type { Choosing } from "./task-choosing.client";
import { placeName, type Standing } from "./task-groups";
import { TaskMoves } from "./task-moves.client";
import { TaskState } from "./task-state";
import styles from "./tasks.module.css";

export interface TaskCardProps {
  readonly task: TaskView;
  readonly standing: Standing;
  /** Its place in the plan, where it does not stand in the plan's order. */
  readonly number: number | null;
  readonly openCheck: OpenCheckView | null;
  readonly now: string;
  readonly choosing: Choosing | null;
  readonly onRoster: boolean;
  readonly onChanged: () => void;
}

/** One task: where, what, why it stands here, how far somebody is, and the tap that begins it. */
export function TaskCard(props: TaskCardProps) {
  const { task, standing, choosing } = props;
  return (
    <article className={classNames(styles.card, styles[task.severity], choosing?.has(task.key) && styles.picked)}>
      {choosing ? <ChooseBox task={task} choosing={choosing} /> : <SeverityMark severity={task.severity} />}
      <TaskWords {...props} />
      <Minutes task={task} />
      {choosing ? null : <CardActions {...props} standing={standing} />}
    </article>
  );
}

function ChooseBox({ task, choosing }: { task: TaskView; choosing: Choosing }) {
  return (
    <label className={styles.choose}>
      <input
        type="checkbox"
        data-choose=""
        checked={choosing.has(task.key)}
        onChange={() => choosing.turn([task.key], !choosing.has(task.key))}
      />
      <VisuallyHidden>
        Choose {placeName(task)} {task.title}
      </VisuallyHidden>
    </label>
  );
}

function TaskWords({ task, standing, number, openCheck, now, onRoster }: TaskCardProps) {
  const zone = useSession()?.facility.timeZone ?? "UTC";
  const say = useSay();
  const asked = askedWords(task, zone);
  const placed = [
    number === null ? null : `No. ${number} of the plan`,
    say(task.placed),
    task.room ? task.room.suite : task.kind === "event" ? say("several rooms") : say("spare, in no room"),
    task.workstation?.tag,
  ];
  return (
    <div className={styles.words}>
      <h3 className={styles.title}>
        <span className={styles.room}>{placeName(task)}</span> {task.title}
      </h3>
      {task.why === task.title ? null : <p className={styles.why}>{task.why}</p>}
      <TaskState task={task} yours={standing === "yours"} openCheck={openCheck} now={now} zone={zone} />
      {asked ? <p className={styles.heed}>{asked}</p> : null}
      {task.couldNot.map(({ name, reason, at }) => (
        <p key={`${name} ${at}`} className={styles.heed}>
          {name} could not, {whenText(at, now, zone)}: {reason}
        </p>
      ))}
      <p className={styles.placed}>{placed.filter(Boolean).join(" · ")}</p>
      {standing === "open" ? <Waiting task={task} zone={zone} /> : null}
      {standing === "other" ? <p className={styles.placed}>For {rolesInWords(task.mayDo)}</p> : null}
      {onRoster && task.onDuty.length === 0 ? (
        <p className={styles.heed}>Nobody on duty may do it: it is for {rolesInWords(task.mayDo)}</p>
      ) : null}
    </div>
  );
}

/** What happens if it waits, and whose it is in the plan when it is somebody else's. */
function Waiting({ task: { ifItWaits, plannedFor }, zone }: { task: TaskView; zone: string }) {
  const session = useSession();
  const say = useSay();
  const others = plannedFor !== null && plannedFor.personId !== session?.person.id;
  const parts = [
    others ? `Planned for ${plannedFor.name}, ${clockText(plannedFor.at, zone)}.` : null,
    ifItWaits === null ? null : say(ifItWaits),
  ].filter((part) => part !== null);
  return parts.length === 0 ? null : <p className={styles.placed}>{parts.join(" ")}</p>;
}

function Minutes({ task }: { task: TaskView }) {
  const zone = useSession()?.facility.timeZone ?? "UTC";
  return (
    <p className={styles.minutes}>
      {minutesText(task.minutes)}
      {task.firstCase ? <span className={styles.placed}>first case {clockText(task.firstCase, zone)}</span> : null}
    </p>
  );
}

function CardActions({ task, standing, openCheck, onChanged }: TaskCardProps) {
  const mayClaim = useMayDo("claim-task");
  const claim = useCommand("claim-task");
  const giveBack = useCommand("give-back-task");
  if (standing === "other") return null;
  const run = async (command: typeof claim | typeof giveBack) => {
    await command.send({ key: task.key });
    // A refused claim means that the list is old: it shows who has the task now.
    onChanged();
  };
  const name = `${placeName(task)} ${task.title}`;
  return (
    <div className={styles.work}>
      <div className={styles.actions}>
        <OpenTask
          task={task}
          look={standing === "taken" ? "plain" : "primary"}
          othersCheckId={task.openCheckId === null ? (openCheck?.checkId ?? null) : null}
        />
        {standing === "open" && mayClaim && (openCheck === null || task.openCheckId !== null) ? (
          <Button size="large" data-claim="" busy={claim.busy} onClick={() => run(claim)} aria-label={`Claim: ${name}`}>
            Claim
          </Button>
        ) : null}
        {standing === "yours" ? (
          <Button
            size="large"
            data-give-back=""
            busy={giveBack.busy}
            onClick={() => run(giveBack)}
            aria-label={`Give back: ${name}`}
          >
            Give back
          </Button>
        ) : null}
        <TaskMoves task={task} />
      </div>
      <ProblemNotice problem={claim.problem ?? giveBack.problem} />
    </div>
  );
}
