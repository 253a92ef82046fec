import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { readTasks } from "@/lib/queries/tasks";
import { TaskListView } from "./task-list.client";

export const metadata: Metadata = { title: "To do" };

/** What clears what, in the order that keeps first cases in time. */
export default async function TasksPage() {
  return <TaskListView initial={await readTasks(await requirePerson("/tasks"))} />;
}
