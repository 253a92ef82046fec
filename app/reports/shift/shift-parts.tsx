import Link from "next/link";
import type { ComponentType } from "react";
import { clockText, minutesText, whenText } from "@/app/_parts/format";
import { ReadinessMark } from "@/app/_parts/readiness-mark";
import { Said } from "@/app/_parts/said.client";
import { ROLE_WORDS } from "@/app/_parts/words";
import { Panel } from "@/app/_ui/panel";
import { byRole } from "@/app/tasks/duty-line";
import type { ShiftSheet } from "@/lib/schemas/report-shift";
import styles from "./shift.module.css";

interface PartProps {
  sheet: ShiftSheet;
  zone: string;
}

/** The parts of the sheet in the order in which they are asked for at a handover. Those with nothing in them say so together, at the end. */
export function ShiftParts(props: PartProps) {
  const parts = partsOf(props.sheet);
  const empty = parts.filter(({ count }) => count === 0);
  return (
    <div className={styles.parts}>
      <OnDuty {...props} />
      {parts
        .filter(({ count }) => count > 0)
        .map(({ title, count, Lines }) => (
          <Panel key={title} title={title} aside={String(count)}>
            <ul className={styles.lines}>
              <Lines {...props} />
            </ul>
          </Panel>
        ))}
      {empty.length === 0 ? null : (
        <Panel title="Nothing to hand over">
          <ul className={styles.nothing}>
            {empty.map(({ title, none }) => (
              <li key={title}>
                <Said>{none}</Said>
              </li>
            ))}
          </ul>
        </Panel>
      )}
    </div>
  );
}

interface SheetPart {
  readonly title: string;
  /** What is said when there is nothing. */
  readonly none: string;
  readonly count: number;
  readonly Lines: ComponentType<PartProps>;
}

function partsOf(sheet: ShiftSheet): SheetPart[] {
  const entries = (of: (sheet: ShiftSheet) => readonly Entry[]) => ({ count: of(sheet).length, Lines: entryLines(of) });
  const { rooms, emergencies, faults, open, failed } = sheet;
  return [
    { title: "Not simply ready", none: "Every room is ready.", count: rooms.length, Lines: NotReady },
    {
      title: "Used in an emergency",
      none: "No room was used against its state.",
      count: emergencies.length,
      Lines: Emergencies,
    },
    {
      title: "Faults nobody has looked at",
      none: "Every reported fault was looked at.",
      count: faults.length,
      Lines: Faults,
    },
    { title: "Held", none: "Nothing is held.", count: sheet.held.length + liftedOf(sheet).length, Lines: Held },
    { title: "Found failing", none: "No answer failed.", count: failed.length, Lines: Failed },
    { title: "Workstations moved", none: "No workstation was moved.", ...entries(({ moved }) => moved) },
    { title: "Swapped and fitted", none: "Nothing was swapped or fitted.", ...entries(({ changed }) => changed) },
    {
      title: "Faults in words",
      none: "No fault was reported or looked at.",
      ...entries(({ reported }) => reported),
    },
    { title: "Allowed", none: "No limit was allowed.", ...entries(({ allowed }) => allowed) },
    { title: "Left open", none: "No work is open.", count: open.length, Lines: Open },
  ];
}

/** Whom to call, by what they are there for. */
function OnDuty({ sheet: { duty, at }, zone }: PartProps) {
  const roles = byRole(duty.people);
  return (
    <Panel title="On duty now: who to call">
      {roles.length === 0 ? (
        <p className={styles.none}>{duty.onRoster ? "Nobody, by the roster." : "No roster was entered for today."}</p>
      ) : (
        <ul className={styles.lines}>
          {roles.map(([role, there]) => (
            <li key={role} className={styles.line}>
              <span className={styles.name}>{ROLE_WORDS[role]}</span>
              <span className={styles.words}>
                {there.map(({ name, until }) => `${name} until ${whenText(until, at, zone)}`).join(", ")}
              </span>
            </li>
          ))}
        </ul>
      )}
    </Panel>
  );
}

function Emergencies({ sheet: { emergencies }, zone }: PartProps) {
  return (
    <>
      {emergencies.map(({ id, roomName, workstationTag, reason, why, name, at, checkedSince }) => (
        <li key={id} className={styles.line}>
          <span className={styles.name}>{roomName}</span>
          <span className={styles.words}>
            {workstationTag ? `${workstationTag}: ` : ""}
            {reason}. It said: {why}. {checkedSince ? "Checked since." : "Its full check is still owed."}
          </span>
          <span className={styles.soft}>
            {name}, {clockText(at, zone)}
          </span>
        </li>
      ))}
    </>
  );
}

function Faults({ sheet: { faults }, zone }: PartProps) {
  return (
    <>
      {faults.map(({ tag, place, text, wouldNotUse, name, at }) => (
        <li key={`${tag} ${at}`} className={styles.line}>
          <span className={styles.name}>{tag}</span>
          <span className={styles.words}>
            {place}: {text}
            {wouldNotUse ? " (would not use it)" : ""}
          </span>
          <span className={styles.soft}>
            {name}, {clockText(at, zone)}
          </span>
        </li>
      ))}
    </>
  );
}

function NotReady({ sheet: { rooms } }: { sheet: ShiftSheet }) {
  return (
    <>
      {rooms.map(({ roomId, name, state, reason, moreReasons, inUse }) => (
        <li key={roomId} className={styles.standing}>
          <Link href={`/rooms/${roomId}`} prefetch={false} className={styles.name}>
            {name}
          </Link>
          <span>
            <ReadinessMark readiness={state} size={20} />
            {inUse ? " · in use" : ""}
          </span>
          <span className={styles.words}>
            {reason ?? ""}
            {moreReasons > 0 ? ` and ${moreReasons} more` : ""}
          </span>
        </li>
      ))}
    </>
  );
}

function Open({ sheet: { open }, zone }: PartProps) {
  return (
    <>
      {open.map(({ key, room, workstation, title, minutes, claim }) => (
        <li key={key} className={styles.line}>
          <span className={styles.name}>{room?.name ?? workstation?.tag ?? ""}</span>
          <span className={styles.words}>
            {title} · {minutesText(minutes)}
          </span>
          <span className={styles.soft}>
            {claim ? `${claim.name}, since ${clockText(claim.since, zone)}` : "nobody on it"}
          </span>
        </li>
      ))}
    </>
  );
}

const liftedOf = ({ holds }: ShiftSheet) => holds.filter(({ command }) => command === "lift-hold");

function Held({ sheet, zone }: PartProps) {
  return (
    <>
      {sheet.held.map(({ tag, place, reason, name, since }) => (
        <li key={`${tag} ${since}`} className={styles.line}>
          <span className={styles.name}>{tag}</span>
          <span className={styles.words}>
            {place}: {reason}
          </span>
          <span className={styles.soft}>
            {name}, since {clockText(since, zone)}
          </span>
        </li>
      ))}
      {liftedOf(sheet).map((entry) => (
        <EntryLine key={entry.sequence} entry={entry} zone={zone} />
      ))}
    </>
  );
}

function Failed({ sheet: { failed }, zone }: PartProps) {
  return (
    <>
      {failed.map(({ room, item, answer, name, at }) => (
        <li key={`${room} ${item} ${answer} ${at}`} className={styles.line}>
          <span className={styles.name}>{room}</span>
          <span className={styles.words}>
            {item}: {answer}
          </span>
          <span className={styles.soft}>
            {name}, {clockText(at, zone)}
          </span>
        </li>
      ))}
    </>
  );
}

type Entry = ShiftSheet["changed"][number];

const entryLines =
  (of: (sheet: ShiftSheet) => readonly Entry[]): ComponentType<PartProps> =>
  ({ sheet, zone }) =>
    of(sheet).map((entry) => <EntryLine key={entry.sequence} entry={entry} zone={zone} />);

function EntryLine({ entry, zone }: { entry: Entry; zone: string }) {
  return (
    <li className={styles.line}>
      <span className={styles.name}>{entry.rooms.map(({ name }) => name).join(", ")}</span>
      <span className={styles.words}>{entry.text}</span>
      <span className={styles.soft}>
        {entry.person.name}, {clockText(entry.at, zone)}
      </span>
    </li>
  );
}
