import { minutesText } from "@/app/_parts/format";
import { Panel } from "@/app/_ui/panel";
import type { WhatIfView } from "@/lib/schemas/what-if";
import styles from "./what-if.module.css";

/** The best spare, and the moves that follow. */
export function SwapView({ swap }: { swap: NonNullable<WhatIfView["swap"]> }) {
  const { spare, moves, others } = swap;
  return (
    <Panel title={spare ? `Best spare: ${spare.tag}` : "No spare fits"} aside={spare?.model}>
      {spare ? <p>{spare.why}.</p> : null}
      <ol className={styles.moves}>
        {moves.map(({ text, minutes }) => (
          <li key={text}>
            {text}
            {minutes === null ? "" : `, ${minutesText(minutes)}`}
          </li>
        ))}
      </ol>
      <p className={styles.soft}>{others === 1 ? "One other spare was" : `${others} other spares were`} looked at.</p>
    </Panel>
  );
}
