"use client";

import { useSay } from "@/app/_parts/say.client";
import { type Chip, ChipLinks } from "@/app/_ui/chip-links.client";
import type { TaskView } from "@/lib/schemas/task";
import {
  ORDERS,
  shownTasks,
  suitesOf,
  type TaskFilter,
  type TaskOrder,
  taskAddress,
  type Viewer,
  WHOSE,
  type Whose,
} from "./task-filter";
import styles from "./tasks.module.css";

const WHOSE_WORDS: Record<Whose, string> = { "for-me": "For me", mine: "Mine", all: "Everybody’s" };
const ORDER_WORDS: Record<TaskOrder, string> = { plan: "By urgency", walk: "Along the walk" };

interface TaskFilterBarProps {
  readonly tasks: readonly TaskView[];
  readonly filter: TaskFilter;
  readonly viewer: Viewer;
}

/** In one line, to be pushed along by the thumb; on a desk it may take a second. */
export function TaskFilterBar({ tasks, filter, viewer }: TaskFilterBarProps) {
  const chip = (change: Partial<TaskFilter>, label: string, counted = true): Chip => {
    const to = { ...filter, ...change };
    const href = taskAddress(to);
    return {
      href,
      label,
      count: counted ? shownTasks(tasks, to, viewer).length : null,
      here: href === taskAddress(filter),
    };
  };
  const suites = suitesOf(tasks);
  const say = useSay();
  return (
    <div className={styles.bar}>
      <ChipLinks name="Order" chips={ORDERS.map((order) => chip({ order }, ORDER_WORDS[order], false))} />
      <ChipLinks name="Whose tasks" chips={WHOSE.map((whose) => chip({ whose }, WHOSE_WORDS[whose]))} />
      {suites.length > 1 ? (
        <ChipLinks
          name={say("Suite")}
          chips={[chip({ suite: null }, say("All suites"), false), ...suites.map((suite) => chip({ suite }, suite))]}
        />
      ) : null}
    </div>
  );
}
