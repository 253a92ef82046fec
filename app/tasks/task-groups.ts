import type { Role } from "@/lib/domain/vocabulary";
import type { TaskView } from "@/lib/schemas/task";

export interface Group {
  readonly name: "yours" | "open" | "taken" | "other";
  readonly tasks: readonly TaskView[];
}

/** The server's order, kept within each group; empty groups are left out. */
export function groupTasks(tasks: readonly TaskView[], personId: string, roles: readonly Role[]): Group[] {
  const nameOf = (task: TaskView): Group["name"] => {
    if (task.claim) return task.claim.personId === personId ? "yours" : "taken";
    return task.mayDo.some((role) => roles.includes(role)) ? "open" : "other";
  };
  const order: Group["name"][] = ["yours", "open", "taken", "other"];
  return order
    .map((name) => ({ name, tasks: tasks.filter((task) => nameOf(task) === name) }))
    .filter((group) => group.tasks.length > 0);
}
