import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { requirePerson } from "@/app/_edge/page-actor";
import { may } from "@/lib/domain/permission";
import { readCheck } from "@/lib/queries/check";
import { CheckRunner } from "./check-runner.client";
import { SignedCheck } from "./signed-check.client";

export const metadata: Metadata = { title: "Check" };

/** A check that is open is done here by who may; once signed, and for everybody else, it is read and confirmed here. */
export default async function CheckPage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  const actor = await requirePerson(`/checks/${id}`);
  const check = await readCheck(actor, id);
  if (!check) notFound();
  const signed = check.signatures.some(({ meaning }) => meaning === "performed");
  const toRead = signed || !may(actor.roles, "record-answers");
  return toRead ? <SignedCheck key={check.id} check={check} /> : <CheckRunner key={check.id} check={check} />;
}
