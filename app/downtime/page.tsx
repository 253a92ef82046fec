import type { Metadata } from "next";
import Link from "next/link";
import { requirePerson } from "@/app/_edge/page-actor";
import { clockText, dayText } from "@/app/_parts/format";
import { whenRead } from "@/app/_parts/when-read";
import { DataTable } from "@/app/_ui/data-table";
import { LinkButton } from "@/app/_ui/link-button";
import { Notice } from "@/app/_ui/notice";
import { Page, PageHeading } from "@/app/_ui/page";
import { Panel } from "@/app/_ui/panel";
import { Skeleton } from "@/app/_ui/skeleton";
import { may } from "@/lib/domain/permission";
import { readPaperEntries } from "@/lib/queries/downtime";
import type { PaperEntriesView } from "@/lib/schemas/downtime";
import { dateIn, instantOf, type Timestamp } from "@/lib/units/time";

export const metadata: Metadata = { title: "Downtime" };

/** For the morning when nothing else works: print it before, enter it after. */
export default async function DowntimePage() {
  const actor = await requirePerson("/downtime");
  const zone = actor.facility.timeZone;
  return (
    <Page>
      <PageHeading
        title="Downtime"
        sub="Work from paper while the network or this server is down, and enter the sheets afterwards."
        actions={
          <LinkButton href="/downtime/print" look="primary">
            Print the morning
          </LinkButton>
        }
      />
      <Notice>
        <p>
          The print holds every room as it stands and a check sheet for each workstation. Keep a copy where the printer
          works without this server: <a href="/api/v1/downtime">the same as a PDF</a>.
        </p>
      </Notice>
      <Panel title="Entered from paper" aside="the last 31 days">
        {
          await whenRead(
            readPaperEntries(actor),
            (view) => <Entries view={view} zone={zone} />,
            <Skeleton what="what was entered" lines={4} />,
          )
        }
        {may(actor.roles, "enter-paper-check") ? <LinkButton href="/downtime/enter">Enter a sheet</LinkButton> : null}
      </Panel>
    </Page>
  );
}

const moment = (at: Timestamp, zone: string) => `${dayText(dateIn(zone, instantOf(at)))} ${clockText(at, zone)}`;

/** Done and entered stand side by side, so that nobody takes the one for the other. */
function Entries({ view: { entries }, zone }: { view: PaperEntriesView; zone: string }) {
  if (entries.length === 0) return <p>No sheet was entered.</p>;
  return (
    <DataTable name="Checks entered from paper">
      <thead>
        <tr>
          <th scope="col">Room</th>
          <th scope="col">Workstation</th>
          <th scope="col">Done</th>
          <th scope="col">Entered</th>
          <th scope="col">Answers</th>
          <th scope="col">Signed</th>
        </tr>
      </thead>
      <tbody>
        {entries.map((one) => (
          <tr key={one.checkId}>
            <th scope="row">{one.room ?? "none"}</th>
            <td>{one.workstation}</td>
            <td>
              {moment(one.earliest, zone)} to {clockText(one.latest, zone)}, {one.doneBy}
            </td>
            <td>
              {moment(one.enteredAt, zone)}, {one.enteredBy}
            </td>
            <td>
              {one.answers}
              {one.failing > 0 ? `, ${one.failing} failing` : ""}
            </td>
            <td>{one.signedBy ?? <Link href={`/checks/${one.checkId}`}>{`owed by ${one.doneBy}`}</Link>}</td>
          </tr>
        ))}
      </tbody>
    </DataTable>
  );
}
