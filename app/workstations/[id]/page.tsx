import { notFound, redirect } from "next/navigation";
import { requirePerson } from "@/app/_edge/page-actor";
import { workstationPath } from "@/app/_parts/scan/scanned";
import { LinkButton } from "@/app/_ui/link-button";
import { Page, PageHeading } from "@/app/_ui/page";
import { readWhereabouts } from "@/lib/queries/whereabouts";

/** The link in the code on a workstation's label, as a phone's own camera opens it: on to wherever it stands now. */
export default async function WorkstationPage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  const found = await readWhereabouts(await requirePerson(workstationPath(id)), id);
  if (!found) notFound();
  if (found.roomId !== null) redirect(`/rooms/${found.roomId}`);
  if (found.taskKey !== null) redirect(`/tasks/${encodeURIComponent(found.taskKey)}`);
  return (
    <Page narrow>
      <PageHeading title={found.tag} sub="A spare. It stands in no room now, and owes no check." />
      <div>
        <LinkButton href="/tasks" look="primary" size="large">
          To do
        </LinkButton>
      </div>
    </Page>
  );
}
