"use client";

import Link from "next/link";
import { usePathname } from "next/navigation";
import type { ReactNode } from "react";
import { useSay } from "@/app/_parts/say.client";
import { classNames } from "@/app/_ui/class-names";
import { fillsTheScreen, type Place, placeOf } from "./places";
import styles from "./shell.module.css";

export function Places({ places }: { places: readonly Place[] }) {
  const path = usePathname();
  const here = placeOf(path);
  const say = useSay();
  return (
    <nav aria-label="Places" className={classNames(styles.nav, fillsTheScreen(path) && styles.deskOnly)}>
      {places.map(({ href, label }) => (
        <Link key={href} href={href} prefetch={false} aria-current={here === href ? "page" : undefined}>
          {say(label)}
        </Link>
      ))}
    </nav>
  );
}

/** Leaves room for the bottom bar wherever the phone shows it. */
export function Frame({ children }: { children: ReactNode }) {
  const path = usePathname();
  return <div className={classNames(styles.frame, !fillsTheScreen(path) && styles.withBottomBar)}>{children}</div>;
}
