"use client";

import { useQuery } from "@tanstack/react-query";
import { type ReactNode, useEffect, useRef } from "react";
import { Said } from "@/app/_parts/said.client";
import { LinkButton } from "@/app/_ui/link-button";
import { Notice } from "@/app/_ui/notice";
import type { RoomView } from "@/lib/schemas/room";
import { viewOrThrow } from "./api.client";
import { ReadinessMark } from "./readiness-mark";
import styles from "./signed-result.module.css";

export interface SignedResultProps {
  /** What was signed: "Signed: performed". */
  readonly words: string;
  /** Null for a spare: its state shows in the room it is moved to. */
  readonly room: { readonly id: string; readonly name: string } | null;
  readonly children?: ReactNode;
}

/** What a signature led to: the room as it is judged now, and the ways on. */
export function SignedResult({ words, room, children }: SignedResultProps) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  return (
    <section className={styles.result} aria-labelledby="signed">
      <h2 id="signed" ref={heading} tabIndex={-1} className={styles.title}>
        {words}
      </h2>
      {children}
      {room ? (
        <RoomNow id={room.id} name={room.name} />
      ) : (
        <p>
          <Said>This workstation is a spare: its state shows in the room it is moved to.</Said>
        </p>
      )}
      <div className={styles.links}>
        <LinkButton href="/tasks" look="primary" size="large">
          To do
        </LinkButton>
        {room ? (
          <LinkButton href={`/rooms/${room.id}`} size="large">
            {room.name}
          </LinkButton>
        ) : null}
        <LinkButton href="/" size="large">
          Rooms
        </LinkButton>
      </div>
    </section>
  );
}

function RoomNow({ id, name }: { id: string; name: string }) {
  const { data, isError } = useQuery({
    queryKey: ["room", id],
    queryFn: () => viewOrThrow<RoomView>(`/api/v1/rooms/${id}`),
    staleTime: 0,
  });
  if (isError)
    return (
      <p>
        <Said>The signature is recorded. The room’s state could not be read just now; its page will show it.</Said>
      </p>
    );
  if (!data) return <p role="status">Judging {name}…</p>;
  const { row } = data;
  return (
    <div className={styles.now} role="status">
      <p className={styles.state}>
        <strong>{name}</strong> <ReadinessMark readiness={row.state} size={32} />
      </p>
      {row.headline ? (
        <p>
          {row.headline}
          {row.moreReasons > 0 ? `, and ${row.moreReasons} more` : ""}
        </p>
      ) : null}
      {row.marks.equipment && !row.marks.provider && (row.state === "ready" || row.state === "ready-limited") ? (
        <Notice title="Provider’s check still owed" />
      ) : null}
    </div>
  );
}
