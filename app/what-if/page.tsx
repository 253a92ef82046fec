import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { RoomsTabs } from "@/app/_parts/rooms-tabs";
import { Said } from "@/app/_parts/said.client";
import { Notice } from "@/app/_ui/notice";
import { Page, PageHeading } from "@/app/_ui/page";
import { Panel } from "@/app/_ui/panel";
import { first, type SearchParams } from "@/app/reports/range";
import { readSession } from "@/lib/queries/session";
import { readWhatIf, readWhatIfChoices } from "@/lib/queries/what-if";
import { type WhatIfView, whatIfQuery } from "@/lib/schemas/what-if";
import { AskForms } from "./ask-forms";
import { ReserveView } from "./reserve-view";
import { SupposedRooms } from "./supposed-rooms";
import { SwapView } from "./swap-view";

export const metadata: Metadata = { title: "What if" };

/** What would become of the rooms. A form without a script: the address holds the question, and nothing is written. */
export default async function WhatIfPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const actor = await requirePerson("/what-if");
  const params = await searchParams;
  const choices = await readWhatIfChoices(actor);
  const { facility } = await readSession(actor);
  const answer = await answerTo(params, (query) => readWhatIf(actor, query));
  return (
    <Page>
      <RoomsTabs />
      <PageHeading title="What if" sub="The same rules on supposed records. Nothing is written, and nobody is told." />
      <AskForms choices={choices} asked={params} />
      {answer && "problem" in answer ? <Notice tone="wrong" title={answer.problem} /> : null}
      {answer && "view" in answer ? <Answer view={answer.view} zone={facility.timeZone} /> : null}
    </Page>
  );
}

type Answered = { readonly view: WhatIfView } | { readonly problem: string } | null;

async function answerTo(
  params: SearchParams,
  read: (query: Parameters<typeof readWhatIf>[1]) => ReturnType<typeof readWhatIf>,
): Promise<Answered> {
  const given = Object.fromEntries(
    Object.entries(params).flatMap(([name, value]) => (first(value) ? [[name, first(value)]] : [])),
  );
  if (given.what === undefined) return null;
  const asked = whatIfQuery.safeParse(given);
  if (!asked.success) {
    const [issue] = asked.error.issues;
    return { problem: `${issue?.path.join(".") ?? ""} ${issue?.message ?? ""}`.trim() };
  }
  const outcome = await read(asked.data);
  return outcome.ok ? { view: outcome.value } : { problem: outcome.message };
}

function Answer({ view, zone }: { view: WhatIfView; zone: string }) {
  return (
    <>
      <Notice tone="heed" title={`Supposed: ${view.title}`} announce="status">
        <p>{changedText(view)} This is a supposition; the rooms stand as they stood.</p>
      </Notice>
      {view.reserve ? <ReserveView reserve={view.reserve} zone={zone} now={view.at} /> : null}
      {view.swap ? <SwapView swap={view.swap} /> : null}
      <Panel title={<Said>Rooms</Said>} aside="as it is, and as it would be">
        <SupposedRooms rooms={view.rooms} zone={zone} />
      </Panel>
    </>
  );
}

function changedText({ rooms }: WhatIfView): string {
  if (rooms.length === 0) return "No room is touched.";
  const changed = rooms.filter(({ changes }) => changes).length;
  const acting = rooms.filter(({ whenInUse }) => whenInUse === "act-now").length;
  const act = acting > 0 ? ` In ${acting} of them a case is running: act now.` : "";
  return `${rooms.length} ${rooms.length === 1 ? "room is" : "rooms are"} touched, ${changed} would stand otherwise.${act}`;
}
