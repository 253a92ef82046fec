"use client";

import { useQuery } from "@tanstack/react-query";
import { viewOrThrow } from "@/app/_parts/api.client";
import { clockText } from "@/app/_parts/format";
import { useSession } from "@/app/_parts/session.client";
import { rolesInWords } from "@/app/_parts/words";
import { Choice } from "@/app/_ui/choice";
import { Notice } from "@/app/_ui/notice";
import type { PeopleView } from "@/lib/schemas/set-up";
import type { TaskList, TaskView } from "@/lib/schemas/task";

interface Able {
  readonly id: string;
  readonly name: string;
  readonly until: string | null;
}

/** Who may go on with a task: those on duty who may do it; where there is no roster, everybody who may. */
export function useAble(task: TaskView): { able: readonly Able[]; onRoster: boolean; known: boolean } {
  const session = useSession();
  const facility = session?.facility.id;
  const tasks = useQuery({ queryKey: ["tasks", facility], queryFn: () => viewOrThrow<TaskList>("/api/v1/tasks") });
  const onRoster = tasks.data?.duty.onRoster ?? true;
  const people = useQuery({
    queryKey: ["people", facility],
    queryFn: () => viewOrThrow<PeopleView>("/api/v1/people"),
    enabled: tasks.data !== undefined && !onRoster,
  });
  const fits = (roles: readonly string[], id: string) =>
    id !== session?.person.id && task.mayDo.some((role) => roles.includes(role));
  const onDuty = (tasks.data?.duty.people ?? [])
    .filter(({ roles, personId }) => fits(roles, personId))
    .map(({ personId, name, until }) => ({ id: personId, name, until }));
  const anybody = (people.data?.people ?? [])
    .filter(({ active, roles, id }) => active && fits(roles, id))
    .map(({ id, name }) => ({ id, name, until: null }));
  return {
    able: onRoster ? onDuty : anybody,
    onRoster,
    known: tasks.data !== undefined && (onRoster || people.data !== undefined),
  };
}

interface SuccessorFieldProps {
  readonly task: TaskView;
  readonly legend: string;
  /** Offered beside the people: nobody in particular. */
  readonly nobody: string | null;
  readonly value: string | null;
  readonly error: string | null;
  readonly onChange: (personId: string) => void;
}

export const NOBODY = "nobody";

export function SuccessorField({ task, legend, nobody, value, error, onChange }: SuccessorFieldProps) {
  const zone = useSession()?.facility.timeZone ?? "UTC";
  const { able, onRoster, known } = useAble(task);
  if (!known) return <p role="status">Reading who is on duty…</p>;
  const options = able.map(({ id, name, until }) => ({
    value: id,
    label: until ? `${name}, until ${clockText(until, zone)}` : name,
  }));
  return (
    <>
      {able.length === 0 ? (
        <Notice tone="heed" title={onRoster ? "Nobody else on duty may do it" : "Nobody else may do it"}>
          <p>It is for {rolesInWords(task.mayDo)}.</p>
        </Notice>
      ) : null}
      {options.length > 0 || nobody ? (
        <Choice
          legend={legend}
          size="large"
          options={nobody ? [{ value: NOBODY, label: nobody }, ...options] : options}
          value={value}
          onChange={onChange}
          error={error}
        />
      ) : null}
    </>
  );
}
