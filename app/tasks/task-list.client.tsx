"use client";

import { useQuery } from "@tanstack/react-query";
import { useId } from "react";
import { useOnChange } from "@/app/_live/use-live.client";
import { viewOrThrow } from "@/app/_parts/api.client";
import { countText } from "@/app/_parts/format";
import { useSession } from "@/app/_parts/session.client";
import { Notice } from "@/app/_ui/notice";
import { Page, PageHeading } from "@/app/_ui/page";
import type { TaskList, TaskView } from "@/lib/schemas/task";
import { TaskCard } from "./task-card.client";
import { type Group, groupTasks } from "./task-groups";
import styles from "./tasks.module.css";

/** The queue: what this person has begun on top, then what they may do, then what others do. */
export function TaskListView({ initial }: { initial: TaskList }) {
  const session = useSession();
  const { data, isError, refetch } = useQuery({
    queryKey: ["tasks", session?.facility.id],
    queryFn: () => viewOrThrow<TaskList>("/api/v1/tasks"),
    initialData: initial,
    refetchInterval: 60_000,
  });
  useOnChange("all", () => refetch());
  const groups = groupTasks(data.tasks, session?.person.id ?? "", session?.roles ?? []);
  const yours = groups.find(({ name }) => name === "yours")?.tasks.length ?? 0;
  return (
    <Page>
      <PageHeading title="To do" sub={data.tasks.length === 0 ? "Nothing is waiting." : sentence(data.tasks, yours)} />
      {isError ? (
        <Notice tone="heed" title="This list may be old" announce="status">
          <p>The server was not reached. It is asked again every few seconds.</p>
        </Notice>
      ) : null}
      {groups.map((group) => (
        <TaskGroup key={group.name} group={group} now={data.at} onChanged={() => refetch()} />
      ))}
    </Page>
  );
}

function sentence(tasks: readonly TaskView[], yours: number): string {
  const late = tasks.filter(({ severity }) => severity === "stops" || severity === "out").length;
  const stops = late > 0 ? `, ${late} of them ${late === 1 ? "stops" : "stop"} a room` : "";
  return `${countText(tasks.length, "task")}${stops}${yours > 0 ? `; you are on ${yours}` : ""}.`;
}

const TITLES: Record<Group["name"], string> = {
  yours: "You are on it",
  open: "Next, in this order",
  taken: "Others are on it",
  other: "For others to do",
};

function TaskGroup({ group, now, onChanged }: { group: Group; now: string; onChanged: () => void }) {
  const id = useId();
  return (
    <section aria-labelledby={id} className={styles.group}>
      <h2 id={id}>{TITLES[group.name]}</h2>
      <ol className={styles.list}>
        {group.tasks.map((task) => (
          <li key={task.key}>
            <TaskCard task={task} group={group.name} now={now} onChanged={onChanged} />
          </li>
        ))}
      </ol>
    </section>
  );
}
