import type { FormHTMLAttributes, ReactNode } from "react";
import styles from "./form.module.css";

/** Fields one under the other. The browser's own bubbles are off: each field says itself what would be right. */
export function Form(props: Omit<FormHTMLAttributes<HTMLFormElement>, "className" | "noValidate">) {
  return <form {...props} noValidate className={styles.form} />;
}

export function FormActions({ children }: { children: ReactNode }) {
  return <div className={styles.actions}>{children}</div>;
}
