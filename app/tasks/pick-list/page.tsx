import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { clockText, countText, longDayText, minutesText } from "@/app/_parts/format";
import { LinkButton } from "@/app/_ui/link-button";
import { Notice } from "@/app/_ui/notice";
import { Page, PageHeading } from "@/app/_ui/page";
import { readPickList } from "@/lib/queries/pick-list";
import { readSession } from "@/lib/queries/session";
import { pickListQuery } from "@/lib/schemas/work";
import { dateIn, instantOf } from "@/lib/units/time";
import { ClaimWalk } from "./claim-walk.client";
import { PickParts } from "./pick-parts";
import { Walk } from "./walk";

export const metadata: Metadata = { title: "Pick list" };

/** Several tasks as one walk: what to take along and from where, then the rooms as they are passed. On screen and on paper. */
export default async function PickListPage({ searchParams }: { searchParams: Promise<{ keys?: string | string[] }> }) {
  const given = (await searchParams).keys;
  const actor = await requirePerson("/tasks");
  const asked = pickListQuery.safeParse({ keys: Array.isArray(given) ? given.join(",") : (given ?? "") });
  if (!asked.success) return <NothingChosen />;
  const { facility } = await readSession(actor);
  const list = await readPickList(actor, asked.data);
  const tasks = list.route.flatMap(({ rooms }) => rooms.flatMap((room) => room.tasks));
  const day = longDayText(dateIn(facility.timeZone, instantOf(list.at)));
  return (
    <Page narrow>
      <PageHeading
        title="Pick list"
        sub={`${countText(tasks.length, "task")}, ${minutesText(list.minutes)} of work. ${actor.name}, ${day} ${clockText(list.at, facility.timeZone)}`}
        actions={<ClaimWalk keys={tasks.map(({ key }) => key)} />}
      />
      {list.gone.length > 0 ? (
        <Notice
          tone="heed"
          title={`${countText(list.gone.length, "task")} of those chosen ${list.gone.length === 1 ? "is" : "are"} done or gone`}
        />
      ) : null}
      <PickParts parts={list.parts} />
      <Walk route={list.route} />
      <div>
        <LinkButton href="/tasks" size="large">
          To do
        </LinkButton>
      </div>
    </Page>
  );
}

function NothingChosen() {
  return (
    <Page narrow>
      <PageHeading title="Pick list" sub="No task was chosen, or more than 40. Choose several in the list of work." />
      <div>
        <LinkButton href="/tasks" look="primary" size="large">
          To do
        </LinkButton>
      </div>
    </Page>
  );
}
