import { ROLE_WORDS } from "@/app/_parts/words";
import { Panel } from "@/app/_ui/panel";
import { coverageOf, DAY, type PersonDay, timeText } from "./coverage";
import styles from "./duty.module.css";

/** Whom nobody could call, and when. */
export function CoverageList({ people }: { people: readonly PersonDay[] }) {
  return (
    <Panel title="Gaps of the day" aside="by the roster, midnight to midnight">
      <ul className={styles.gaps}>
        {coverageOf(people).map(({ role, gaps }) => (
          <li key={role} className={gaps.length > 0 ? styles.gap : undefined}>
            <strong>{ROLE_WORDS[role]}</strong>{" "}
            {gaps.length === 0
              ? "somebody all day"
              : gaps[0]?.from === 0 && gaps[0].to === DAY
                ? "nobody all day"
                : `nobody ${gaps.map(({ from, to }) => `${timeText(from)} to ${timeText(to)}`).join(", ")}`}
          </li>
        ))}
      </ul>
    </Panel>
  );
}
