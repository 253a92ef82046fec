import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { readRules } from "@/lib/queries/rules";
import { RulesManager } from "./rules-manager.client";

export const metadata: Metadata = { title: "Rules" };

/** Every rule: what it does, what it is set to, and what came of it. */
export default async function RulesPage() {
  return <RulesManager initial={await readRules(await requirePerson("/set-up/rules"))} />;
}
