"use client";

import { useState } from "react";
import { Button } from "@/app/_ui/button.client";
import styles from "./calculator.module.css";

/** The same question for the command line, where it is answered in full figures and in bulk. */
export function CopyLine({ line }: { line: string }) {
  const [copied, setCopied] = useState<{ line: string; ok: boolean } | null>(null);
  const copy = () =>
    navigator.clipboard.writeText(line).then(
      () => setCopied({ line, ok: true }),
      () => setCopied({ line, ok: false }),
    );
  const said =
    copied?.line === line ? (copied.ok ? "Copied." : "The browser did not allow it: copy the line by hand.") : "";
  return (
    <section className={styles.line} aria-label="The same on the command line">
      <p>
        The same on the command line, with every figure: <code>npm run --silent calc</code>
      </p>
      <code className={styles.json}>{line}</code>
      <div className={styles.copy}>
        <Button onClick={copy}>Copy as JSON line</Button>
        <span role="status">{said}</span>
      </div>
    </section>
  );
}
