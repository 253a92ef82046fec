"use client";

import Link from "next/link";
import { usePathname } from "next/navigation";
import styles from "./tab-links.module.css";

/** Parts of one place as links; the one being looked at is marked. */
export function TabLinks({ name, links }: { name: string; links: readonly { href: string; label: string }[] }) {
  const path = usePathname();
  return (
    <nav aria-label={name} className={styles.tabs}>
      {links.map(({ href, label }) => (
        <Link
          key={href}
          href={href}
          prefetch={false}
          className={styles.tab}
          aria-current={path === href ? "page" : undefined}
        >
          {label}
        </Link>
      ))}
    </nav>
  );
}
