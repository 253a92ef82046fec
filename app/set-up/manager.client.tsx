"use client";

import type { ReactNode } from "react";
import { Dialog } from "@/app/_ui/dialog.client";
import { PageHeading } from "@/app/_ui/page";
import styles from "./set-up.module.css";

export interface ManagerProps {
  title: ReactNode;
  sub: ReactNode;
  /** What can be added here, as buttons at the head: on a phone the end of a list is far away. */
  actions?: ReactNode;
  /** The form that is open, if one is. */
  form?: { readonly title: ReactNode; readonly body: ReactNode } | null;
  onClose?: () => void;
  children: ReactNode;
}

/** The one frame of every list of the set-up: what there is, a form in front of it for one more or for a change. */
export function Manager({ title, sub, actions, form = null, onClose, children }: ManagerProps) {
  return (
    <>
      <PageHeading title={title} sub={sub} actions={actions} />
      <div className={styles.stack}>{children}</div>
      <Dialog open={form !== null} title={form?.title ?? ""} onClose={onClose ?? (() => undefined)}>
        {form?.body}
      </Dialog>
    </>
  );
}
