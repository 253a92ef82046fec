import Link from "next/link";
import type { ReactNode } from "react";
import styles from "./button.module.css";
import { classNames } from "./class-names";

export interface LinkButtonProps {
  href: string;
  look?: "plain" | "primary" | "stop" | "quiet";
  size?: "normal" | "large";
  wide?: boolean;
  children: ReactNode;
}

/** A link that leads to the next step of the work, so it looks like a button. */
export function LinkButton({ href, look = "plain", size = "normal", wide = false, children }: LinkButtonProps) {
  return (
    <Link
      href={href}
      prefetch={false}
      className={classNames(
        styles.button,
        look !== "plain" && styles[look],
        size === "large" && styles.large,
        wide && styles.wide,
      )}
    >
      {children}
    </Link>
  );
}
