import Link from "next/link";
import { dayText } from "@/app/_parts/format";
import { Button } from "@/app/_ui/button.client";
import { TextField } from "@/app/_ui/field";
import { addDays, type LocalDate } from "@/lib/units/time";
import styles from "./duty.module.css";

const SHOWN = 7;

/** Today and the days after it, one tap each; any other day by its date. */
export function DayChoice({ date, today }: { date: LocalDate; today: LocalDate }) {
  const days = Array.from({ length: SHOWN }, (_, index) => addDays(today, index));
  return (
    <div className={styles.days}>
      <nav aria-label="Day" className={styles.dayLinks}>
        {days.map((day) => (
          <Link
            key={day}
            href={day === today ? "/tasks/duty" : `/tasks/duty?date=${day}`}
            prefetch={false}
            scroll={false}
            aria-current={day === date ? "date" : undefined}
          >
            {day === today ? "Today" : dayText(day)}
          </Link>
        ))}
      </nav>
      <form method="get" action="/tasks/duty" className={styles.dayForm}>
        <TextField label="Another day" type="date" name="date" defaultValue={date} key={date} />
        <Button type="submit">Show</Button>
      </form>
    </div>
  );
}
