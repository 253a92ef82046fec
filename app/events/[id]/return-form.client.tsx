"use client";

import { type FormEvent, useState } from "react";
import type { Commands } from "@/app/_parts/command-types";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { Said } from "@/app/_parts/said.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Choice } from "@/app/_ui/choice";
import { TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";
import styles from "@/app/events/events.module.css";
import { typedNumber } from "@/app/events/typed-number";
import type { EventRoom, EventView } from "@/lib/schemas/events";
import type { PressureUnit } from "@/lib/units/pressure";

type Returned = Commands["return-to-service"]["input"]["rooms"][number];

interface Typed {
  readonly pressure: string;
  readonly proved: "yes" | "no" | null;
}
const EMPTY: Typed = { pressure: "", proved: null };

interface ReturnFormProps {
  event: EventView;
  left: readonly EventRoom[];
  unit: PressureUnit;
  onReturned: () => void;
}

/** Room by room, as somebody walks: what is filled in is sent, what is not stays for later. */
export function ReturnForm({ event, left, unit, onReturned }: ReturnFormProps) {
  const send = useCommand("return-to-service");
  const [typed, setTyped] = useState<Readonly<Record<string, Typed>>>({});
  const [wrong, setWrong] = useState<string | null>(null);
  const isPower = event.line.kind === "power";
  const put = (roomId: string, change: Partial<Typed>) =>
    setTyped((all) => ({ ...all, [roomId]: { ...(all[roomId] ?? EMPTY), ...change } }));
  const submit = async (submitted: FormEvent) => {
    submitted.preventDefault();
    const begun = left.filter(({ roomId }) => isBegun(typed[roomId] ?? EMPTY));
    const rooms = begun.map(({ roomId }) => returnedOf(roomId, typed[roomId] ?? EMPTY, isPower, unit));
    const half = begun.find((_room, place) => rooms[place] === null);
    setWrong(begun.length === 0 ? "Fill in one room at least." : half ? halfText(half.name, isPower) : null);
    if (begun.length === 0 || half) return;
    const whole = rooms.flatMap((room) => (room ? [room] : []));
    const reply = await send.send({ eventId: event.line.id, rooms: whole });
    if (!reply?.ok) return;
    setTyped({});
    onReturned();
  };
  return (
    <Form onSubmit={submit}>
      {isPower ? null : (
        <p>
          <Said>
            In each room: pressure at the gauge, then the oxygen analyzer on pipeline gas with the cylinder shut.
          </Said>
        </p>
      )}
      {left.map((room) => (
        <RoomLooks
          key={room.roomId}
          room={room}
          typed={typed[room.roomId] ?? EMPTY}
          unit={isPower ? null : unit}
          onChange={(change) => put(room.roomId, change)}
        />
      ))}
      {wrong ? <Notice tone="wrong" title={wrong} announce="alert" /> : null}
      <Button type="submit" look="primary" size="large" busy={send.busy}>
        Sign and return to service
      </Button>
      <ProblemNotice problem={send.problem} />
    </Form>
  );
}

interface RoomLooksProps {
  room: EventRoom;
  typed: Typed;
  /** Null for a power failure, which has no pressure. */
  unit: PressureUnit | null;
  onChange: (change: Partial<Typed>) => void;
}

function RoomLooks({ room, typed, unit, onChange }: RoomLooksProps) {
  const options = [
    { value: "yes", label: unit === null ? "On mains" : "Right gas" },
    { value: "no", label: unit === null ? "Not on mains" : "Not proved" },
  ] as const;
  return (
    <div className={styles.looks}>
      {unit === null ? null : (
        <TextField
          label={`${room.name}: pressure in ${unit}`}
          inputMode="decimal"
          autoComplete="off"
          value={typed.pressure}
          onChange={(event) => onChange({ pressure: event.target.value })}
        />
      )}
      <Choice
        legend={`${room.name}: ${unit === null ? "power" : "gas identity"}`}
        options={options}
        value={typed.proved}
        onChange={(proved) => onChange({ proved })}
      />
    </div>
  );
}

const isBegun = ({ pressure, proved }: Typed): boolean => pressure.trim() !== "" || proved !== null;

function returnedOf(
  roomId: string,
  { pressure, proved }: Typed,
  isPower: boolean,
  unit: PressureUnit,
): Returned | null {
  if (proved === null) return null;
  if (isPower) return { roomId, mains: proved === "yes" };
  const value = typedNumber(pressure);
  return Number.isNaN(value) ? null : { roomId, pressure: { value, unit }, identity: proved === "yes" };
}

const halfText = (name: string, isPower: boolean): string =>
  isPower ? `${name}: say whether it runs on mains.` : `${name}: give the pressure as a number, and the gas identity.`;
