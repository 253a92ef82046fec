import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { readProcedures } from "@/lib/queries/procedures";
import { ProceduresManager } from "./procedures-manager.client";

export const metadata: Metadata = { title: "Procedures" };

/** What each kind of check asks: the version in force, the one that waits, and the next one in writing. */
export default async function ProceduresPage() {
  return <ProceduresManager initial={await readProcedures(await requirePerson("/set-up/procedures"))} />;
}
