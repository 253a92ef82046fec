"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Form } from "@/app/_ui/form";
import { Saved } from "@/app/set-up/saved.client";
import type { WeekView } from "@/lib/schemas/weekly";
import { ListFields, sentOf, typedOf, USUAL } from "./list-fields.client";

type Room = WeekView["rooms"][number];

/** Today's list of one room, starting from what the week says; it can be taken away again. */
export function TodayForm({ room, weekday, onSaved }: { room: Room; weekday: number; onSaved: () => void }) {
  const { send, busy, problem } = useCommand("set-list");
  const usual = room.days.find((day) => day.weekday === weekday && !day.closed);
  const [list, setList] = useState(() => (room.list ? typedOf(room.list) : usual ? typedOf(usual) : USUAL));
  const put = async (given: Parameters<typeof send>[0]["list"]) => {
    if ((await send({ roomId: room.id, list: given }))?.ok) onSaved();
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    void put(sentOf(list));
  };
  return (
    <Form onSubmit={submit}>
      <ListFields list={list} onList={setList} error={(field) => fieldMessage(problem, `list.${field}`)} />
      <Saved problem={problem} busy={busy} saved={null} label="Save for today">
        {room.list ? <Button onClick={() => put(null)}>Back to the week</Button> : null}
      </Saved>
    </Form>
  );
}
