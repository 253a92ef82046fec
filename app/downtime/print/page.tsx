import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { clockText, dayText } from "@/app/_parts/format";
import { READINESS_WORDS } from "@/app/_parts/words";
import { DataTable } from "@/app/_ui/data-table";
import { Page, PageHeading } from "@/app/_ui/page";
import { readDowntime } from "@/lib/queries/downtime";
import type { PrintedRoom, PrintedSheet } from "@/lib/schemas/downtime";
import { dateIn, instantOf } from "@/lib/units/time";
import styles from "./print.module.css";
import { PrintAtOnce } from "./print-at-once.client";

export const metadata: Metadata = { title: "The morning on paper" };

/** Every room as it stands, then one sheet a workstation; it goes to the printer by itself. */
export default async function PrintPage() {
  const actor = await requirePerson("/downtime/print");
  const { facility, timeZone, at, rooms, sheets } = await readDowntime(actor);
  const moment = `${dayText(dateIn(timeZone, instantOf(at)))} ${clockText(at, timeZone)}`;
  return (
    <Page>
      <PageHeading
        title={`${facility}, ${moment}`}
        sub="Work from paper while nothing else works. Enter every sheet afterwards, with who did it and when."
        actions={<PrintAtOnce />}
      />
      <Rooms rooms={rooms} zone={timeZone} />
      {sheets.map((sheet) => (
        <Sheet key={sheet.workstation} sheet={sheet} />
      ))}
      <p className={styles.caution}>
        Printed {moment}; what changed since then is not on these sheets. A record and planning aid, not a medical
        device: it does not replace a qualified person’s check, the maker’s instructions or local codes.
      </p>
    </Page>
  );
}

function Rooms({ rooms, zone }: { rooms: readonly PrintedRoom[]; zone: string }) {
  return (
    <DataTable name="Rooms">
      <thead>
        <tr>
          <th scope="col">Room</th>
          <th scope="col">First case</th>
          <th scope="col">State</th>
          <th scope="col">Workstation</th>
          <th scope="col">Why</th>
          <th scope="col">Checked by</th>
          <th scope="col">Provider</th>
        </tr>
      </thead>
      <tbody>
        {rooms.map((room) => (
          <tr key={room.name}>
            <th scope="row">{room.name}</th>
            <td>{room.firstCase ? clockText(room.firstCase, zone) : ""}</td>
            <td>{[READINESS_WORDS[room.state], room.occupancy].filter(Boolean).join(", ")}</td>
            <td>{room.workstation ?? "none"}</td>
            <td>{room.reason}</td>
            <td>{room.equipment}</td>
            <td>{room.provider}</td>
          </tr>
        ))}
      </tbody>
    </DataTable>
  );
}

function Sheet({ sheet: { room, workstation, model, procedure, items } }: { sheet: PrintedSheet }) {
  return (
    <section className={styles.sheet} aria-label={`Check sheet of ${room}`}>
      <h2>
        {room}, workstation {workstation}
      </h2>
      <p>
        {model}. {procedure}.
      </p>
      <p className={styles.blanks}>
        <span>Done by</span>
        <span>Date</span>
        <span>From</span>
        <span>To</span>
      </p>
      <DataTable name={`Items of ${room}`}>
        <thead>
          <tr>
            <th scope="col">Item</th>
            <th scope="col">Limit</th>
            <th scope="col">Answer</th>
            <th scope="col">Remark</th>
          </tr>
        </thead>
        <tbody>
          {items.map(({ title, limit, answer, unit }) => (
            <tr key={title}>
              <th scope="row">{title}</th>
              <td>{limit}</td>
              <td className={styles.answer}>{answer === "yes-no" ? <Boxes /> : (unit ?? "")}</td>
              <td />
            </tr>
          ))}
        </tbody>
      </DataTable>
      <p className={styles.blanks}>
        <span>May be used, yes or no</span>
        <span>Signed</span>
        <span>Provider</span>
      </p>
    </section>
  );
}

/** Two boxes to tick. */
const Boxes = () => (
  <>
    <span className={styles.box} /> good <span className={styles.box} /> fails
  </>
);
