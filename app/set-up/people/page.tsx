import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { requirePerson } from "@/app/_edge/page-actor";
import { readPeople } from "@/lib/queries/people";
import { PeopleManager } from "./people-manager.client";

export const metadata: Metadata = { title: "People" };

/** Who belongs to this facility, in which roles. */
export default async function PeoplePage() {
  const people = await readPeople(await requirePerson("/set-up/people"));
  if (!people) notFound();
  return <PeopleManager initial={people} />;
}
