"use client";

import { Button } from "@/app/_ui/button.client";
import styles from "./check-footer.module.css";

export interface CheckFooterProps {
  readonly doing: "Record" | "Next" | "Later";
  readonly target: string;
  readonly primary: boolean;
  readonly onFault: () => void;
}

/** The two buttons under the thumb. Next says what it will do and where it leads. */
export function CheckFooter({ doing, target, primary, onFault }: CheckFooterProps) {
  return (
    <div className={styles.footer}>
      <Button size="large" look="stop" onClick={onFault}>
        Fault
      </Button>
      <Button size="large" type="submit" look={primary ? "primary" : "plain"} wide>
        <span className={styles.next}>
          <span>{doing}</span>
          <span className={styles.target}>{doing === "Record" ? `then ${target}` : target}</span>
        </span>
      </Button>
    </div>
  );
}
