"use client";

import { type ReactNode, useEffect, useId, useRef } from "react";
import styles from "./dialog.module.css";

export interface DialogProps {
  open: boolean;
  title: ReactNode;
  onClose: () => void;
  children: ReactNode;
}

/** Work starts at the first field or button of the content, not at "Close". */
function firstControl(dialog: HTMLDialogElement): HTMLElement | null {
  return dialog.querySelector<HTMLElement>(
    "[data-dialog-body] :is(input:not([hidden]), textarea, select, button, a[href])",
  );
}

/** The platform's own modal dialog: it traps focus, closes with Escape and gives focus back. Its content exists only while it is open. */
export function Dialog({ open, title, onClose, children }: DialogProps) {
  const ref = useRef<HTMLDialogElement>(null);
  const titleId = useId();
  useEffect(() => {
    const dialog = ref.current;
    if (!dialog) return;
    if (open && !dialog.open) {
      dialog.showModal();
      firstControl(dialog)?.focus();
    }
    if (!open && dialog.open) dialog.close();
  }, [open]);
  return (
    <dialog ref={ref} className={styles.dialog} aria-labelledby={titleId} onClose={onClose}>
      {open ? (
        <>
          <div className={styles.head}>
            <h2 id={titleId}>{title}</h2>
            <button type="button" className={styles.close} aria-label="Close" onClick={() => ref.current?.close()}>
              <svg width="18" height="18" viewBox="0 0 18 18" aria-hidden="true">
                <path d="M3 3l12 12M15 3L3 15" stroke="currentColor" strokeWidth="2" />
              </svg>
            </button>
          </div>
          <div className={styles.body} data-dialog-body>
            {children}
          </div>
        </>
      ) : null}
    </dialog>
  );
}
