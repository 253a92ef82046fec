import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { requirePerson } from "@/app/_edge/page-actor";
import { readProcedures } from "@/lib/queries/procedures";
import { DraftScreen } from "./draft-screen.client";

export const metadata: Metadata = { title: "Next version" };

/** The next version of one kind of check, in writing or proposed. */
export default async function DraftPage({ params }: { params: Promise<{ kind: string }> }) {
  const { kind } = await params;
  const actor = await requirePerson(`/set-up/procedures/${kind}`);
  const view = await readProcedures(actor);
  if (!view.kinds.some((one) => one.kind === kind)) notFound();
  return <DraftScreen initial={view} kind={kind} />;
}
