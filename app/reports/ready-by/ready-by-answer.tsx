import { numberText } from "@/app/_parts/format";
import { Said } from "@/app/_parts/said.client";
import styles from "@/app/reports/reports.module.css";
import type { ReadyByMorning } from "@/lib/schemas/report-ready-by";

/** The answer first: of all first cases, how many found their room ready. */
export function ReadyByAnswer({ mornings }: { mornings: readonly ReadyByMorning[] }) {
  const sum = (of: (morning: ReadyByMorning) => number) => mornings.reduce((total, one) => total + of(one), 0);
  const [inTime, late, never] = [sum((one) => one.inTime), sum((one) => one.late), sum((one) => one.never)];
  const due = inTime + late + never;
  return (
    <p className={styles.answer}>
      <strong>{due === 0 ? "n/a" : `${numberText((100 * inTime) / due)} %`}</strong>{" "}
      {due === 0 ? (
        "No first case came in these days."
      ) : (
        <Said>{`of first cases found their room ready: ${numberText(inTime)} of ${numberText(due)}.`}</Said>
      )}{" "}
      <span className={styles.soft}>
        {numberText(late)} ready later, {numberText(never)} not that day.{" "}
        <Said>A closed room and a room without a first case are not counted.</Said>
      </span>
    </p>
  );
}
