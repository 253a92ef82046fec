"use client";

import { useId, useRef } from "react";
import { Button } from "@/app/_ui/button.client";
import { VisuallyHidden } from "@/app/_ui/visually-hidden";
import type { TaskList, TaskView } from "@/lib/schemas/task";
import type { OpenChecksView, OpenCheckView } from "@/lib/schemas/work";
import { TaskCard } from "./task-card.client";
import type { Choosing } from "./task-choosing.client";
import type { TaskOrder } from "./task-filter";
import type { Group } from "./task-groups";
import { useTaskKeys } from "./task-keys.client";
import styles from "./tasks.module.css";

interface TaskGroupsProps {
  readonly groups: readonly Group[];
  readonly list: TaskList;
  readonly checks: OpenChecksView;
  readonly now: string;
  readonly order: TaskOrder;
  readonly choosing: Choosing | null;
  /** Begins choosing several; nothing where there are not several. */
  readonly onChoose: (() => void) | null;
  readonly onChanged: () => void;
}

/** The groups one under the other; along them the arrow keys go from task to task. */
export function TaskGroups(props: TaskGroupsProps) {
  const list = useRef<HTMLDivElement>(null);
  useTaskKeys(list);
  const first = props.groups.find(({ standing }) => standing === "open") ?? props.groups[0];
  return (
    <div ref={list} className={styles.groups}>
      {props.groups.length === 0 ? null : (
        <p className={styles.keys}>
          Keys on a task: <kbd>↓</kbd> <kbd>↑</kbd> next and previous, <kbd>C</kbd> claim, <kbd>M</kbd> more
        </p>
      )}
      {props.groups.map((group) => (
        <TaskGroup
          key={`${group.standing} ${group.title}`}
          {...props}
          group={group}
          onChoose={group === first ? props.onChoose : null}
        />
      ))}
    </div>
  );
}

function TaskGroup({
  group,
  list,
  checks,
  now,
  order,
  choosing,
  onChoose,
  onChanged,
}: TaskGroupsProps & { group: Group }) {
  const id = useId();
  const keys = group.tasks.map(({ key }) => key);
  const all = choosing !== null && keys.every((key) => choosing.has(key));
  return (
    <section aria-labelledby={id} className={styles.group}>
      <div className={styles.groupHead}>
        <h2 id={id}>
          {group.title}{" "}
          <span className={styles.count}>
            {group.tasks.length}
            {group.aside ? ` · ${group.aside}` : ""}
          </span>
        </h2>
        {choosing ? (
          <Button onClick={() => choosing.turn(keys, !all)}>
            {all ? "None" : "All"} <VisuallyHidden>of {group.title}</VisuallyHidden>
          </Button>
        ) : null}
        {onChoose ? <Button onClick={onChoose}>Choose several</Button> : null}
      </div>
      <ol className={styles.list}>
        {group.tasks.map((task) => (
          <li key={task.key}>
            <TaskCard
              task={task}
              standing={group.standing}
              number={order === "walk" && group.standing === "open" ? list.tasks.indexOf(task) + 1 : null}
              openCheck={openCheckOf(task, checks)}
              now={now}
              choosing={choosing}
              onRoster={list.duty.onRoster}
              onChanged={onChanged}
            />
          </li>
        ))}
      </ol>
    </section>
  );
}

/** The check that is open on a task's workstation, whoever has it; one's own stand above the list already. */
function openCheckOf(task: TaskView, { mine, others }: OpenChecksView): OpenCheckView | null {
  if (task.kind !== "check") return null;
  const here = ({ workstation }: OpenCheckView) => workstation.id === task.workstation?.id;
  return task.openCheckId
    ? (mine.find(({ checkId }) => checkId === task.openCheckId) ?? null)
    : (others.find(here) ?? null);
}
