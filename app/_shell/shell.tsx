import Link from "next/link";
import type { ReactNode } from "react";
import { WaitingLine } from "@/app/_offline/waiting-line.client";
import type { SessionView } from "@/lib/schemas/set-up";
import { AskedLine } from "./asked-line.client";
import { DemoLine } from "./demo-line.client";
import { PersonMenu } from "./person-menu.client";
import { placesFor } from "./places";
import { Frame, Places } from "./places.client";
import styles from "./shell.module.css";
import { Wordmark } from "./wordmark";

/** What stands around every page: the places, who is signed in where, and what this product is not. */
export function Shell({ session, children }: { session: SessionView | null; children: ReactNode }) {
  return (
    <Frame>
      <a href="#main" className={styles.skip}>
        Skip to the page
      </a>
      {session ? <Header session={session} /> : null}
      {session ? <WaitingLine /> : null}
      {session ? <AskedLine /> : null}
      <main id="main" tabIndex={-1} className={styles.main}>
        {children}
      </main>
      <footer className={styles.footer}>
        <p>
          A record and planning aid, not a medical device. It defers to qualified people, the maker’s instructions and
          local codes.
        </p>
        <p>
          <Link href="/calculator" prefetch={false}>
            Calculator
          </Link>
        </p>
      </footer>
    </Frame>
  );
}

function Header({ session }: { session: SessionView }) {
  return (
    <header className={styles.header}>
      {session.demo ? <DemoLine at={session.at} zone={session.facility.timeZone} /> : null}
      <div className={styles.bar}>
        <Link href="/" prefetch={false} className={styles.brand}>
          <Wordmark />
        </Link>
        <Places places={placesFor(session.mayDo)} />
        <PersonMenu session={session} />
      </div>
    </header>
  );
}
