import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { requirePerson } from "@/app/_edge/page-actor";
import { readCheck } from "@/lib/queries/check";
import { CheckRunner } from "./check-runner.client";
import { SignedCheck } from "./signed-check.client";

export const metadata: Metadata = { title: "Check" };

/** A check that is open is done here; once signed it is read and confirmed here. */
export default async function CheckPage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  const check = await readCheck(await requirePerson(`/checks/${id}`), id);
  if (!check) notFound();
  const signed = check.signatures.some(({ meaning }) => meaning === "performed");
  return signed ? <SignedCheck check={check} /> : <CheckRunner check={check} />;
}
