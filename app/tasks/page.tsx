import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { readOpenChecks } from "@/lib/queries/open-checks";
import { readTasks } from "@/lib/queries/tasks";
import { TaskListView } from "./task-list.client";

export const metadata: Metadata = { title: "To do" };

/** What clears what, in the order that keeps first cases in time. */
export default async function TasksPage() {
  const actor = await requirePerson("/tasks");
  const [tasks, openChecks] = await Promise.all([readTasks(actor), readOpenChecks(actor)]);
  return <TaskListView initial={tasks} initialChecks={openChecks} />;
}
