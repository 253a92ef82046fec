"use client";

import { useState } from "react";
import { useMayDo } from "@/app/_parts/session.client";
import { ROLE_WORDS } from "@/app/_parts/words";
import { Button } from "@/app/_ui/button.client";
import { Dialog } from "@/app/_ui/dialog.client";
import { VisuallyHidden } from "@/app/_ui/visually-hidden";
import type { DutyView } from "@/lib/schemas/duty";
import { DAY, type PersonDay } from "./coverage";
import styles from "./duty.module.css";
import { DutyForm } from "./duty-form.client";
import type { Person } from "./roster-types";

interface DutyTableProps {
  readonly day: DutyView;
  readonly people: readonly PersonDay[];
  readonly canBe: readonly Person[];
  /** Minutes after midnight; null on a day that is not today. */
  readonly nowMinute: number | null;
}

/** One line a person: the day drawn, and the same in words. */
export function DutyTable({ day, people, canBe, nowMinute }: DutyTableProps) {
  const mayEdit = useMayDo("set-duty");
  const [edited, setEdited] = useState<Person | null>(null);
  return (
    <>
      <div className={styles.axis} aria-hidden="true">
        <svg className={styles.axisLine} aria-hidden="true" focusable="false">
          {[0, 6, 12, 18].map((hour) => (
            <text key={hour} x={`${(100 * hour) / 24}%`} y="12">
              {String(hour).padStart(2, "0")}:00
            </text>
          ))}
        </svg>
      </div>
      <ul className={styles.people}>
        {people.map((person) => {
          const whole = canBe.find(({ id }) => id === person.personId);
          return (
            <li key={person.personId} className={styles.person}>
              <strong className={styles.name}>{person.name}</strong>
              <Bars person={person} nowMinute={nowMinute} />
              <ul className={styles.spans}>
                {person.stretches.map(({ role, said }) => (
                  <li key={`${role} ${said}`}>
                    {ROLE_WORDS[role]}, {said}
                  </li>
                ))}
              </ul>
              {mayEdit && whole ? (
                <Button onClick={() => setEdited(whole)}>
                  Change <VisuallyHidden>{person.name}</VisuallyHidden>
                </Button>
              ) : null}
            </li>
          );
        })}
      </ul>
      <Dialog open={edited !== null} title={edited?.name ?? ""} onClose={() => setEdited(null)}>
        {edited ? (
          <DutyForm
            date={day.date}
            people={[edited]}
            spans={day.people.find(({ personId }) => personId === edited.id)?.spans ?? []}
            onDone={() => setEdited(null)}
          />
        ) : null}
      </Dialog>
    </>
  );
}

const HEIGHT = 14;

function Bars({ person, nowMinute }: { person: PersonDay; nowMinute: number | null }) {
  return (
    <svg className={styles.bars} aria-hidden="true" focusable="false">
      {[0, 6, 12, 18].map((hour) => (
        <line
          key={hour}
          className={styles.tick}
          x1={`${(100 * hour) / 24}%`}
          x2={`${(100 * hour) / 24}%`}
          y1="0"
          y2="100%"
        />
      ))}
      {person.stretches.map(({ role, from, to }) => (
        <rect
          key={`${role} ${from}`}
          className={styles.bar}
          x={`${(100 * from) / DAY}%`}
          width={`${(100 * (to - from)) / DAY}%`}
          y="6"
          height={HEIGHT}
          rx="3"
        />
      ))}
      {nowMinute === null ? null : (
        <line
          className={styles.now}
          x1={`${(100 * nowMinute) / DAY}%`}
          x2={`${(100 * nowMinute) / DAY}%`}
          y1="0"
          y2="100%"
        />
      )}
    </svg>
  );
}
