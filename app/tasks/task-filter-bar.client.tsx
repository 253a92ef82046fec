"use client";

import { Button } from "@/app/_ui/button.client";
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
  /** Begins choosing several; nothing where there are not several. */
  readonly onChoose: (() => void) | null;
}

export function TaskFilterBar({ tasks, filter, viewer, onChoose }: TaskFilterBarProps) {
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
  return (
    <div className={styles.bar}>
      <div className={styles.barLine}>
        <ChipLinks name="Order" chips={ORDERS.map((order) => chip({ order }, ORDER_WORDS[order], false))} />
        <ChipLinks name="Whose tasks" chips={WHOSE.map((whose) => chip({ whose }, WHOSE_WORDS[whose]))} />
      </div>
      <div className={styles.barLine}>
        {suites.length > 1 ? (
          <ChipLinks
            name="Suite"
            chips={[chip({ suite: null }, "All suites", false), ...suites.map((suite) => chip({ suite }, suite))]}
          />
        ) : null}
        {onChoose ? (
          <span className={styles.chooseBegin}>
            <Button onClick={onChoose}>Choose several</Button>
          </span>
        ) : null}
      </div>
    </div>
  );
}
