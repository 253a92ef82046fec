import type { Metadata } from "next";
import { notFound, redirect } from "next/navigation";
import { requirePerson } from "@/app/_edge/page-actor";
import { readTask } from "@/lib/queries/task";
import { TaskDone } from "./task-done";
import { TaskPageView } from "./task-page.client";

export const metadata: Metadata = { title: "Task" };

/** One task opened: what is to be done, and the evidence that finishes it. */
export default async function TaskPage({ params }: { params: Promise<{ key: string }> }) {
  const key = keyIn((await params).key);
  if (key === null) notFound();
  if (key.startsWith("event:")) redirect(`/events/${encodeURIComponent(key.slice("event:".length))}`);
  const detail = await readTask(await requirePerson(`/tasks/${encodeURIComponent(key)}`), key);
  return detail ? <TaskPageView detail={detail} /> : <TaskDone />;
}

/** The key holds colons and so travels encoded; a broken encoding is no task. */
function keyIn(segment: string): string | null {
  try {
    return decodeURIComponent(segment);
  } catch {
    return null;
  }
}
