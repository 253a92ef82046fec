"use client";

import Link from "next/link";
import { usePathname } from "next/navigation";
import { useMessages } from "@/app/_parts/use-messages.client";
import styles from "./asked-line.module.css";

/** What this person was asked and has not answered, on every page until they have. */
export function AskedLine() {
  const path = usePathname();
  const { data } = useMessages();
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
