import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { readAllowances } from "@/lib/queries/allowances";
import { AllowedScreen } from "./allowed-screen.client";

export const metadata: Metadata = { title: "Allowed with a limit" };

/** Everything that is allowed and until when, in one view. */
export default async function AllowedPage() {
  return <AllowedScreen initial={await readAllowances(await requirePerson("/allowed"))} />;
}
