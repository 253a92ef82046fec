"use client";

import { useQuery } from "@tanstack/react-query";
import Link from "next/link";
import { usePathname } from "next/navigation";
import { useOnChange } from "@/app/_live/use-live.client";
import { viewOrThrow } from "@/app/_parts/api.client";
import { useSession } from "@/app/_parts/session.client";
import type { MessagesView } from "@/lib/schemas/messages";
import styles from "./asked-line.module.css";

/** Who is asked is told to everybody with the whole board. */
const WHOLE_BOARD_ONLY: readonly string[] = [];

/** What this person was asked and has not answered, on every page until they have. */
export function AskedLine() {
  const session = useSession();
  const path = usePathname();
  const { data, refetch } = useQuery({
    queryKey: ["messages", session?.facility.id],
    queryFn: () => viewOrThrow<MessagesView>("/api/v1/messages"),
    enabled: session !== null,
    staleTime: 20_000,
  });
  useOnChange(WHOLE_BOARD_ONLY, () => void refetch());
  const open = data?.escalations.filter(({ outcome, answeredAt }) => outcome === null && answeredAt === null) ?? [];
  const [first] = open;
  if (!first || path === "/messages") return null;
  return (
    <p className={styles.line} role="status">
      <Link href="/messages" prefetch={false}>
        You are asked: {first.reason}
        {open.length > 1 ? `, and ${open.length - 1} more` : ""}
      </Link>
    </p>
  );
}
