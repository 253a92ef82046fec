import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { Page, PageHeading } from "@/app/_ui/page";
import { readRehearsal } from "@/lib/queries/rehearsal";
import { rehearsalQuery } from "@/lib/schemas/rehearsal";
import { ChooseRehearsal } from "./choose-rehearsal.client";
import { RehearsalRunner } from "./rehearsal-runner.client";

export const metadata: Metadata = { title: "Rehearsal" };

/** Practise the site's own daily check on a workstation that does not exist. Nothing here is a record. */
export default async function RehearsalPage({ searchParams }: { searchParams: Promise<Record<string, unknown>> }) {
  const actor = await requirePerson("/rehearsal");
  const given = await searchParams;
  const query = rehearsalQuery.safeParse(given);
  const rehearsal = query.success ? await readRehearsal(actor, query.data) : null;
  if (rehearsal) return <RehearsalRunner key={`${rehearsal.seed}-${rehearsal.faults}`} rehearsal={rehearsal} />;
  return (
    <Page narrow>
      <PageHeading
        title="Rehearse a check"
        sub="Your daily check, on a workstation that does not exist. Faults are planted in it. Nothing you do here is recorded, and no room changes."
      />
      {query.success ? <p>This site has no daily check in force yet, so there is nothing to rehearse.</p> : null}
      <ChooseRehearsal refused={given.seed === undefined || query.success ? null : firstMessage(query.error)} />
    </Page>
  );
}

const firstMessage = ({ issues: [issue] }: { issues: readonly { path: PropertyKey[]; message: string }[] }) =>
  issue ? `The ${String(issue.path[0] ?? "address")} ${issue.message}.` : null;
