import { redirect } from "next/navigation";
import { requirePerson } from "@/app/_edge/page-actor";
import { readSession } from "@/lib/queries/session";
import { setUpPlaces } from "./places";

/** Leads to the first part this person may use. */
export default async function SetUpPage() {
  const { mayDo } = await readSession(await requirePerson("/set-up"));
  redirect(setUpPlaces(mayDo)[0]?.href ?? "/");
}
