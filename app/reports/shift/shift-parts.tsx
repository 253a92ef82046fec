import Link from "next/link";
import type { ReactNode } from "react";
import { clockText, minutesText, whenText } from "@/app/_parts/format";
import { ReadinessMark } from "@/app/_parts/readiness-mark";
import { ROLE_WORDS } from "@/app/_parts/words";
import { Panel } from "@/app/_ui/panel";
import { byRole } from "@/app/tasks/duty-line";
import type { ShiftSheet } from "@/lib/schemas/report-shift";
import styles from "./shift.module.css";

interface PartProps {
  sheet: ShiftSheet;
  zone: string;
}

/** The parts of the sheet in the order in which they are asked for at a handover. A part with nothing in it says so. */
export function ShiftParts({ sheet, zone }: PartProps) {
  return (
    <div className={styles.parts}>
      <OnDuty sheet={sheet} zone={zone} />
      <NotReady sheet={sheet} />
      <Emergencies sheet={sheet} zone={zone} />
      <Faults sheet={sheet} zone={zone} />
      <Open sheet={sheet} zone={zone} />
      <Held sheet={sheet} zone={zone} />
      <Failed sheet={sheet} zone={zone} />
      <Entries title="Workstations moved" none="No workstation was moved." entries={sheet.moved} zone={zone} />
      <Entries title="Swapped and fitted" none="Nothing was swapped or fitted." entries={sheet.changed} zone={zone} />
      <Entries
        title="Faults in words"
        none="No fault was reported or looked at."
        entries={sheet.reported}
        zone={zone}
      />
      <Entries title="Allowed" none="No limit was allowed." entries={sheet.allowed} zone={zone} />
    </div>
  );
}

function Part({ title, none, count, children }: { title: string; none: string; count: number; children: ReactNode }) {
  return (
    <Panel title={title} aside={count === 0 ? undefined : String(count)}>
      {count === 0 ? <p className={styles.none}>{none}</p> : <ul className={styles.lines}>{children}</ul>}
    </Panel>
  );
}

/** Whom to call, by what they are there for. */
function OnDuty({ sheet: { duty, at }, zone }: PartProps) {
  const roles = byRole(duty.people);
  return (
    <Part
      title="On duty now"
      none={duty.onRoster ? "Nobody, by the roster." : "No roster was entered for today."}
      count={roles.length}
    >
      {roles.map(([role, there]) => (
        <li key={role} className={styles.line}>
          <span className={styles.name}>{ROLE_WORDS[role]}</span>
          <span className={styles.words}>
            {there.map(({ name, until }) => `${name} until ${whenText(until, at, zone)}`).join(", ")}
          </span>
        </li>
      ))}
    </Part>
  );
}

function Emergencies({ sheet: { emergencies }, zone }: PartProps) {
  return (
    <Part title="Used in an emergency" none="No room was used against its state." count={emergencies.length}>
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
    </Part>
  );
}

function Faults({ sheet: { faults }, zone }: PartProps) {
  return (
    <Part title="Faults nobody has looked at" none="Every reported fault was looked at." count={faults.length}>
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
    </Part>
  );
}

function NotReady({ sheet: { rooms } }: { sheet: ShiftSheet }) {
  return (
    <Part title="Not simply ready" none="Every room is ready." count={rooms.length}>
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
    </Part>
  );
}

function Open({ sheet: { open }, zone }: PartProps) {
  return (
    <Part title="Left open" none="No work is open." count={open.length}>
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
    </Part>
  );
}

function Held({ sheet: { held, holds }, zone }: PartProps) {
  const lifted = holds.filter(({ command }) => command === "lift-hold");
  return (
    <Part title="Held" none="Nothing is held." count={held.length + lifted.length}>
      {held.map(({ tag, place, reason, name, since }) => (
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
      {lifted.map((entry) => (
        <EntryLine key={entry.sequence} entry={entry} zone={zone} />
      ))}
    </Part>
  );
}

function Failed({ sheet: { failed }, zone }: PartProps) {
  return (
    <Part title="Found failing" none="No answer failed." count={failed.length}>
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
    </Part>
  );
}

type Entry = ShiftSheet["changed"][number];

interface EntriesProps {
  title: string;
  none: string;
  entries: readonly Entry[];
  zone: string;
}

function Entries({ title, none, entries, zone }: EntriesProps) {
  return (
    <Part title={title} none={none} count={entries.length}>
      {entries.map((entry) => (
        <EntryLine key={entry.sequence} entry={entry} zone={zone} />
      ))}
    </Part>
  );
}

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
