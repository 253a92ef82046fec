import type { ReactNode } from "react";
import { requirePerson } from "@/app/_edge/page-actor";
import { Page } from "@/app/_ui/page";
import { TabLinks } from "@/app/_ui/tab-links.client";
import { sayIn } from "@/lib/domain/site-words";
import { readSession } from "@/lib/queries/session";
import { setUpPlaces } from "./places";

/** The parts of the set-up that this person may use, as links above each of them. */
export default async function SetUpLayout({ children }: { children: ReactNode }) {
  const { mayDo, words } = await readSession(await requirePerson("/set-up"));
  const say = sayIn(words);
  const links = setUpPlaces(mayDo).map((place) => ({ ...place, label: say(place.label) }));
  return (
    <Page>
      <TabLinks name="Set-up" links={links} />
      {children}
    </Page>
  );
}
