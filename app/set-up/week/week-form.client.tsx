"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { useSay } from "@/app/_parts/say.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Choice } from "@/app/_ui/choice";
import { Form } from "@/app/_ui/form";
import { Saved } from "@/app/set-up/saved.client";
import styles from "@/app/set-up/set-up.module.css";
import { WEEKDAY_NAMES, WEEKDAYS } from "@/lib/domain/weekly-template/model";
import type { WeekView } from "@/lib/schemas/weekly";
import { ListFields, sentOf, type TypedList, typedOf, USUAL } from "./list-fields.client";

type Room = WeekView["rooms"][number];
type State = "runs" | "closed" | "unsaid";
interface TypedDay {
  state: State;
  list: TypedList;
}

const STATES = [
  { value: "runs", label: "runs" },
  { value: "closed", label: "closed" },
  { value: "unsaid", label: "not said" },
] as const;

/** The week of the first chosen room is what the others start from, too. Nobody is surprised by an empty form. */
function startOf(rooms: readonly Room[]): TypedDay[] {
  const days = rooms.find((room) => room.days.length > 0)?.days ?? [];
  if (days.length === 0) return WEEKDAYS.map((day) => ({ state: day < 6 ? "runs" : "closed", list: USUAL }));
  return WEEKDAYS.map((weekday) => {
    const day = days.find((one) => one.weekday === weekday);
    if (!day) return { state: "unsaid", list: USUAL };
    return day.closed ? { state: "closed", list: USUAL } : { state: "runs", list: typedOf(day) };
  });
}

export function WeekForm({ rooms, onSaved }: { rooms: readonly Room[]; onSaved: () => void }) {
  const say = useSay();
  const { send, busy, problem } = useCommand("set-weekly-template");
  const [days, setDays] = useState(() => startOf(rooms));
  const put = (place: number, part: Partial<TypedDay>) =>
    setDays(days.map((day, at) => (at === place ? { ...day, ...part } : day)));
  const said = WEEKDAYS.filter((_, place) => days[place]?.state !== "unsaid");
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const sent = days.flatMap(({ state, list }, place) => {
      const weekday = WEEKDAYS[place];
      if (state === "unsaid" || weekday === undefined) return [];
      return [
        state === "closed" ? { weekday, closed: true as const } : { weekday, closed: false as const, ...sentOf(list) },
      ];
    });
    if ((await send({ roomIds: rooms.map(({ id }) => id), days: sent }))?.ok) onSaved();
  };
  return (
    <Form onSubmit={submit}>
      <p className={styles.soft}>From today on. Days that have passed keep what was said then.</p>
      {WEEKDAYS.map((weekday, place) => {
        const day = days[place];
        if (!day) return null;
        const name = WEEKDAY_NAMES[weekday];
        const at = said.indexOf(weekday);
        return (
          <div key={weekday} className={styles.rule}>
            <Choice legend={name} options={STATES} value={day.state} onChange={(state) => put(place, { state })} />
            {day.state === "runs" ? (
              <ListFields
                of={name}
                list={day.list}
                onList={(list) => put(place, { list })}
                error={(field) => fieldMessage(problem, `days.${at}.${field}`)}
              />
            ) : null}
            <CopyDay
              name={name}
              place={place}
              onCopy={(from, to) => {
                const copied = days[from];
                if (copied) setDays(days.map((one, at) => (to.includes(at) ? { ...copied } : one)));
              }}
            />
          </div>
        );
      })}
      <Saved
        problem={problem}
        busy={busy}
        saved={null}
        label={rooms.length === 1 ? "Save this week" : say`Save for ${rooms.length} rooms`}
      />
    </Form>
  );
}

/** The places of Tuesday to Friday. */
const REST_OF_WORK_WEEK = [1, 2, 3, 4] as const;

/** Most days are like the one before. */
function CopyDay({
  name,
  place,
  onCopy,
}: {
  name: string;
  place: number;
  onCopy: (from: number, to: readonly number[]) => void;
}) {
  const before = WEEKDAYS[place - 1];
  return (
    <div>
      {before === undefined ? (
        <Button onClick={() => onCopy(0, REST_OF_WORK_WEEK)}>The same until Friday</Button>
      ) : (
        <Button
          look="quiet"
          onClick={() => onCopy(place - 1, [place])}
          aria-label={`${name}: the same as ${WEEKDAY_NAMES[before]}`}
        >
          The same as {WEEKDAY_NAMES[before]}
        </Button>
      )}
    </div>
  );
}
