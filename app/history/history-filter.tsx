import Link from "next/link";
import { Said } from "@/app/_parts/said.client";
import { Button } from "@/app/_ui/button.client";
import { SelectField } from "@/app/_ui/field";
import type { HistoryQuery } from "./address";
import styles from "./history.module.css";

export interface HistoryFilterProps {
  readonly query: HistoryQuery;
  readonly rooms: readonly { readonly roomId: string; readonly name: string }[];
  readonly people: readonly { readonly id: string; readonly name: string }[];
}

/** A form that works by its address alone, without script. */
export function HistoryFilter({ query, rooms, people }: HistoryFilterProps) {
  const byName = [...people].sort((left, right) => left.name.localeCompare(right.name, "en"));
  const inOrder = [...rooms].sort((left, right) => left.name.localeCompare(right.name, "en", { numeric: true }));
  return (
    <form method="get" action="/history" className={styles.filter}>
      <SelectField label={<Said>Room</Said>} name="room" defaultValue={query.room ?? ""} key={`room-${query.room}`}>
        <option value="">
          <Said>All rooms</Said>
        </option>
        {inOrder.map(({ roomId, name }) => (
          <option key={roomId} value={roomId}>
            {name}
          </option>
        ))}
      </SelectField>
      <SelectField label="Person" name="person" defaultValue={query.person ?? ""} key={`person-${query.person}`}>
        <option value="">Everybody</option>
        {byName.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </SelectField>
      <Button type="submit">Show</Button>
      {query.room || query.person ? <Link href="/history">Show all</Link> : null}
    </form>
  );
}
