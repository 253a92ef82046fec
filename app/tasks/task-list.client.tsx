"use client";

import { useQuery } from "@tanstack/react-query";
import { useSearchParams } from "next/navigation";
import { useMemo } from "react";
import { useLive, useOnChange } from "@/app/_live/use-live.client";
import { viewOrThrow } from "@/app/_parts/api.client";
import { NotLive } from "@/app/_parts/not-live";
import { useSay } from "@/app/_parts/say.client";
import { useServerTime } from "@/app/_parts/server-clock.client";
import { useSession } from "@/app/_parts/session.client";
import { turnInPlace } from "@/app/_ui/chip-links.client";
import { Notice } from "@/app/_ui/notice";
import { Page, PageHeading } from "@/app/_ui/page";
import type { TaskList, TaskView } from "@/lib/schemas/task";
import type { OpenChecksView } from "@/lib/schemas/work";
import { instant } from "@/lib/units/time";
import { DutyLine } from "./duty-line";
import { OpenChecks } from "./open-checks.client";
import { ChooseBar, useChoosing } from "./task-choosing.client";
import { inOneSentence, shownTasks, type TaskFilter, taskAddress, taskFilterOf, type Viewer } from "./task-filter";
import { TaskFilterBar } from "./task-filter-bar.client";
import { TaskGroups } from "./task-group-list.client";
import { groupTasks } from "./task-groups";
import { TaskMovesHost } from "./task-moves.client";
import { TaskTabs } from "./task-tabs";
import styles from "./tasks.module.css";

interface TaskListViewProps {
  readonly initial: TaskList;
  readonly initialChecks: OpenChecksView;
}

/** The queue: what this person has begun on top, then what they may do, then what others do. */
export function TaskListView({ initial, initialChecks }: TaskListViewProps) {
  const session = useSession();
  const { list, checks, isError, refetch } = useWork(initial, initialChecks);
  const now = useServerTime(list.at);
  const live = useLive();
  const zone = session?.facility.timeZone ?? "UTC";
  const viewer: Viewer = { personId: session?.person.id ?? "", roles: session?.roles ?? [] };
  const params = useSearchParams();
  const filter = useMemo(() => taskFilterOf(params), [params]);
  const say = useSay();
  const shown = shownTasks(list.tasks, filter, viewer);
  const { choosing, keys, begin, end } = useChoosing();
  return (
    <Page>
      <div className={styles.tabs}>
        <TaskTabs />
      </div>
      <PageHeading
        title="To do"
        sub={say(inOneSentence(shownTasks(list.tasks, { ...filter, suite: null, whose: "for-me" }, viewer), viewer))}
      />
      {live.state === "live" ? null : <NotLive since={instant(live.since)} readAt={list.at} zone={zone} />}
      {isError ? (
        <Notice tone="heed" title="This list may be old" announce="status">
          <p>The server was not reached. It is asked again every few seconds.</p>
        </Notice>
      ) : null}
      <DutyLine duty={list.duty} now={now} zone={zone} />
      <TaskMovesHost onChanged={refetch}>
        {choosing ? null : <OpenChecks checks={checks.mine} tasks={list.tasks} now={now} zone={zone} />}
        <TaskFilterBar tasks={list.tasks} filter={filter} viewer={viewer} />
        <TaskGroups
          groups={groupTasks(choosing ? shown : withoutOpen(shown, checks), viewer, filter.order)}
          list={list}
          checks={checks}
          now={now}
          order={filter.order}
          choosing={choosing}
          onChoose={choosing || shown.length < 2 ? null : begin}
          onChanged={refetch}
        />
      </TaskMovesHost>
      <LeftOut filter={filter} shown={shown.length} all={list.tasks.length} />
      {choosing ? <ChooseBar tasks={list.tasks} keys={keys} onEnd={end} onChanged={refetch} /> : null}
    </Page>
  );
}

/** The queue and the open checks, kept current: a claim changes the one, a self-test the other. */
function useWork(initial: TaskList, initialChecks: OpenChecksView) {
  const facility = useSession()?.facility.id;
  const tasks = useQuery({
    queryKey: ["tasks", facility],
    queryFn: () => viewOrThrow<TaskList>("/api/v1/tasks"),
    initialData: initial,
    refetchInterval: 60_000,
  });
  const checks = useQuery({
    queryKey: ["open-checks", facility],
    queryFn: () => viewOrThrow<OpenChecksView>("/api/v1/checks"),
    initialData: initialChecks,
    refetchInterval: 60_000,
  });
  const refetch = () => {
    void tasks.refetch();
    void checks.refetch();
  };
  useOnChange("all", refetch);
  return { list: tasks.data, checks: checks.data, isError: tasks.isError, refetch };
}

/** One's own open checks stand above the list already. */
const withoutOpen = (tasks: readonly TaskView[], { mine }: OpenChecksView): TaskView[] =>
  tasks.filter(({ openCheckId }) => !mine.some(({ checkId }) => checkId === openCheckId));

/** What a filter leaves out is said, so that nobody takes a part for the whole. */
function LeftOut({ filter, shown, all }: { filter: TaskFilter; shown: number; all: number }) {
  if (shown === all) return null;
  const everything = taskAddress({ ...filter, suite: null, whose: "all" });
  return (
    <p className={styles.leftOut}>
      {shown === 0 ? "Nothing here is like that. " : null}
      {all - shown} more of everybody’s {all - shown === 1 ? "task" : "tasks"} not shown.{" "}
      <a href={everything} onClick={(event) => turnInPlace(event, everything)}>
        Show all
      </a>
    </p>
  );
}
