"use client";

import Link from "next/link";
import { usePathname } from "next/navigation";
import { type FocusEvent, type KeyboardEvent, useEffect, useRef, useState } from "react";
import { signOut } from "@/app/_parts/auth.client";
import { shortName } from "@/app/_parts/format";
import { ROLE_WORDS } from "@/app/_parts/words";
import { Button } from "@/app/_ui/button.client";
import type { SessionView } from "@/lib/schemas/set-up";
import { FacilitySwitch } from "./facility-switch.client";
import styles from "./shell.module.css";

export function PersonMenu({ session }: { session: SessionView }) {
  const menu = useRef<HTMLDetailsElement>(null);
  const path = usePathname();
  useEffect(() => {
    if (path && menu.current) menu.current.open = false;
  }, [path]);
  const closeOnEscape = (event: KeyboardEvent) => {
    if (event.key !== "Escape" || !menu.current?.open) return;
    menu.current.open = false;
    menu.current.querySelector("summary")?.focus();
  };
  const closeOnLeave = (event: FocusEvent) => {
    if (menu.current && !menu.current.contains(event.relatedTarget)) menu.current.open = false;
  };
  return (
    <details ref={menu} className={styles.person} onKeyDown={closeOnEscape} onBlur={closeOnLeave}>
      <summary>
        <span className={styles.place}>{session.facility.name}</span>
        <strong>{shortName(session.person.name)}</strong>
      </summary>
      <div className={styles.menu}>
        <p>
          <strong>{session.person.name}</strong>
          {session.roles.map((role) => ROLE_WORDS[role]).join(", ") || "no role at this facility"}
        </p>
        {session.facilities.length < 2 ? <p>{session.facility.name}</p> : null}
        <FacilitySwitch session={session} />
        <Link href="/messages" prefetch={false}>
          Messages
        </Link>
        <Link href="/set-up/password" prefetch={false}>
          Change password
        </Link>
        <SignOut />
      </div>
    </details>
  );
}

function SignOut() {
  const [busy, setBusy] = useState(false);
  const leave = async () => {
    setBusy(true);
    await signOut().catch(() => undefined);
    window.location.assign("/sign-in");
  };
  return (
    <Button busy={busy} onClick={leave}>
      Sign out
    </Button>
  );
}
