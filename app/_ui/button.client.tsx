"use client";

import { type ButtonHTMLAttributes, type MouseEvent, useId } from "react";
import styles from "./button.module.css";
import { classNames } from "./class-names";

export type ButtonLook = "plain" | "primary" | "stop" | "quiet";

export interface ButtonProps extends Omit<ButtonHTMLAttributes<HTMLButtonElement>, "disabled"> {
  look?: ButtonLook;
  size?: "normal" | "large";
  wide?: boolean;
  /** Work is under way: a second press does nothing. */
  busy?: boolean;
  /** Why it cannot be pressed now. The button stays focusable, so that everybody can find out. */
  disabledReason?: string | null;
}

export function Button(props: ButtonProps) {
  const {
    look = "plain",
    size = "normal",
    wide = false,
    busy = false,
    disabledReason,
    className,
    onClick,
    ...rest
  } = props;
  const reasonId = useId();
  const blocked = Boolean(disabledReason);
  const press = (event: MouseEvent<HTMLButtonElement>) => {
    if (blocked || busy) {
      event.preventDefault();
      return;
    }
    onClick?.(event);
  };
  const button = (
    <button
      type="button"
      {...rest}
      className={classNames(
        styles.button,
        look !== "plain" && styles[look],
        size === "large" && styles.large,
        wide && styles.wide,
        className,
      )}
      aria-disabled={blocked || undefined}
      aria-busy={busy || undefined}
      aria-describedby={blocked ? reasonId : rest["aria-describedby"]}
      onClick={press}
    >
      {busy ? <span className={styles.spinner} aria-hidden="true" /> : null}
      {rest.children}
    </button>
  );
  if (!blocked) return button;
  return (
    <span className={classNames(styles.group, wide && styles.groupWide)}>
      {button}
      <span id={reasonId} className={styles.reason}>
        {disabledReason}
      </span>
    </span>
  );
}
