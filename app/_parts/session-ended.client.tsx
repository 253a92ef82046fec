"use client";

import { useQueryClient } from "@tanstack/react-query";
import { useSyncExternalStore } from "react";
import { Button } from "@/app/_ui/button.client";
import { Notice } from "@/app/_ui/notice";
import styles from "./session-ended.module.css";
import { askToSignInAgain, sessionEnd } from "./sign-in-again.client";

/** Says that the session is over without getting in the way of what is being typed. */
export function SessionEnded() {
  const queries = useQueryClient();
  const hasEnded = useSyncExternalStore(sessionEnd.watch, sessionEnd.hasCome, () => false);
  if (!hasEnded) return null;
  const renew = async () => {
    if (await askToSignInAgain()) await queries.invalidateQueries();
  };
  return (
    <div className={styles.bar}>
      <Notice tone="heed" title="Your session has ended" announce="status">
        <p>What you see may be old. What you have typed is still here.</p>
        <div>
          <Button look="primary" onClick={renew}>
            Sign in again
          </Button>
        </div>
      </Notice>
    </div>
  );
}
