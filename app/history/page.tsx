import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { countText } from "@/app/_parts/format";
import { LinkButton } from "@/app/_ui/link-button";
import { Notice } from "@/app/_ui/notice";
import { Page, PageHeading } from "@/app/_ui/page";
import { readBoard } from "@/lib/queries/board";
import { readHistory } from "@/lib/queries/history";
import { readPeople } from "@/lib/queries/people";
import { readSession } from "@/lib/queries/session";
import { type HistoryEntry, historyQuery } from "@/lib/schemas/history";
import { historyHref, queryIn, type SearchParams } from "./address";
import { EntryList } from "./entry-list";
import { HistoryFilter } from "./history-filter";

export const metadata: Metadata = { title: "History" };

/** Who did what, newest first. Plain links and a plain form: every view of it has an address. */
export default async function HistoryPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const actor = await requirePerson("/history");
  const asked = historyQuery.safeParse(queryIn(await searchParams));
  const query = asked.success ? asked.data : historyQuery.parse({});
  const [page, board, known, session] = await Promise.all([
    readHistory(actor, query),
    readBoard(actor),
    readPeople(actor),
    readSession(actor),
  ]);
  return (
    <Page narrow>
      <PageHeading
        title="History"
        sub={`${session.facility.name} · ${countText(page.entries.length, "entry", "entries")} shown, newest first`}
      />
      {asked.success ? null : (
        <Notice tone="heed" title="That address asks for something that is not in the history">
          <p>The whole history is shown instead.</p>
        </Notice>
      )}
      <HistoryFilter query={query} rooms={board.rooms} people={known?.people ?? peopleIn(page)} />
      <EntryList entries={page.entries} zone={session.facility.timeZone} query={query} />
      <nav aria-label="Pages of the history">
        {query.before === undefined ? null : (
          <LinkButton href={historyHref({ ...query, before: undefined })}>Newest</LinkButton>
        )}{" "}
        {page.next === null ? null : (
          <LinkButton href={historyHref({ ...query, before: page.next })} look="primary">
            Earlier
          </LinkButton>
        )}
      </nav>
    </Page>
  );
}

/** Who may not see the list of people still filters by whom they see in the history. */
function peopleIn({ entries }: { entries: readonly HistoryEntry[] }) {
  const people = new Map(
    entries.flatMap(({ person }) => (person.id ? [[person.id, { id: person.id, name: person.name }]] : [])),
  );
  return [...people.values()];
}
