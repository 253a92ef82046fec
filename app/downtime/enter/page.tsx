import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { requirePerson } from "@/app/_edge/page-actor";
import { Page, PageHeading } from "@/app/_ui/page";
import { may } from "@/lib/domain/permission";
import { readPaperSheet } from "@/lib/queries/downtime";
import { PaperForm } from "./paper-form.client";
import { WhichWorkstation } from "./which-workstation.client";

export const metadata: Metadata = { title: "Enter a sheet" };

/** What a sheet of paper says, with who did the check and when; who enters it is recorded beside it. */
export default async function EnterPage({
  searchParams,
}: {
  searchParams: Promise<{ workstation?: string | string[] }>;
}) {
  const actor = await requirePerson("/downtime/enter");
  if (!may(actor.roles, "enter-paper-check")) notFound();
  const { workstation } = await searchParams;
  const sheet = typeof workstation === "string" ? await readPaperSheet(actor, workstation) : null;
  if (typeof workstation === "string" && !sheet) notFound();
  return (
    <Page narrow>
      <PageHeading
        title={sheet ? `Sheet of ${sheet.room ?? "a spare"}, workstation ${sheet.workstation.tag}` : "Enter a sheet"}
        sub={
          sheet
            ? `${sheet.workstation.model}. ${sheet.procedure}. Leave out what the sheet leaves out.`
            : "Which workstation does the sheet say?"
        }
      />
      {sheet ? <PaperForm sheet={sheet} /> : <WhichWorkstation />}
    </Page>
  );
}
