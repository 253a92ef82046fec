"use client";

import { countText } from "@/app/_parts/format";
import { useSession } from "@/app/_parts/session.client";
import { useMessages } from "@/app/_parts/use-messages.client";
import { Page, PageHeading } from "@/app/_ui/page";
import { Panel } from "@/app/_ui/panel";
import type { MessagesView } from "@/lib/schemas/messages";
import { AskedOfYou } from "./asked-of-you.client";
import { Channels } from "./channels.client";
import styles from "./messages.module.css";
import { Summaries } from "./summaries.client";

/** First what waits for an answer, then how one is reached. */
export function MessagesScreen({ initial }: { initial: MessagesView }) {
  const session = useSession();
  const { data: view = initial, refetch } = useMessages(initial);
  const changed = () => void refetch();
  const zone = session?.facility.timeZone ?? "UTC";
  const open = view.escalations.filter(({ outcome, answeredAt }) => outcome === null && answeredAt === null);
  return (
    <Page narrow>
      <PageHeading title="Messages" sub={open.length === 0 ? "Nothing waits for your answer" : waiting(open.length)} />
      <Panel title="Asked of you">
        {view.escalations.length === 0 ? (
          <p>Nobody has asked you to see to anything.</p>
        ) : (
          <ul className={styles.list}>
            {view.escalations.map((one) => (
              <AskedOfYou key={one.id} escalation={one} view={view} zone={zone} onChanged={changed} />
            ))}
          </ul>
        )}
      </Panel>
      <Panel title="How you are reached" aside="besides this screen">
        <Channels view={view} zone={zone} onChanged={changed} />
      </Panel>
      <Panel title="Summaries by mail">
        <Summaries view={view} onChanged={changed} />
      </Panel>
    </Page>
  );
}

const waiting = (count: number): string =>
  `${countText(count, "request")} ${count === 1 ? "waits" : "wait"} for your answer`;
