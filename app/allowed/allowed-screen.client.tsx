"use client";

import { useQuery } from "@tanstack/react-query";
import { useOnChange } from "@/app/_live/use-live.client";
import { viewOrThrow } from "@/app/_parts/api.client";
import { countText } from "@/app/_parts/format";
import { RoomsTabs } from "@/app/_parts/rooms-tabs";
import { useSession } from "@/app/_parts/session.client";
import { Page, PageHeading } from "@/app/_ui/page";
import { Panel } from "@/app/_ui/panel";
import type { AllowancesView } from "@/lib/schemas/allowances";
import styles from "./allowed.module.css";
import { LimitLine } from "./limit-line.client";
import { VaporFree } from "./vapor-free.client";

export function AllowedScreen({ initial }: { initial: AllowancesView }) {
  const session = useSession();
  const { data: view, refetch } = useQuery({
    queryKey: ["allowances", session?.facility.id],
    queryFn: () => viewOrThrow<AllowancesView>("/api/v1/allowances"),
    initialData: initial,
  });
  const changed = () => void refetch();
  useOnChange("all", changed);
  const zone = session?.facility.timeZone ?? "UTC";
  const waiting = view.limits.filter(({ standing }) => standing === "not-allowed" || standing === "waits").length;
  const inForce = view.limits.filter(({ standing }) => standing === "allowed").length;
  return (
    <Page>
      <RoomsTabs />
      <PageHeading title="Allowed with a limit" sub={answer(inForce, waiting)} />
      <Panel title="Limits" aside="a stop is never allowed, only cleared">
        {view.limits.length === 0 ? (
          <p>No workstation has a limit that anybody could allow.</p>
        ) : (
          <ul className={styles.list}>
            {view.limits.map((limit) => (
              <LimitLine
                key={`${limit.workstation.id} ${limit.rule} ${limit.what}`}
                limit={limit}
                now={view.at}
                zone={zone}
                onChanged={changed}
              />
            ))}
          </ul>
        )}
      </Panel>
      <Panel
        title="Vapor-free preparation"
        aside="for a patient at risk of malignant hyperthermia; no patient is named here"
      >
        <VaporFree view={view} zone={zone} onChanged={changed} />
      </Panel>
    </Page>
  );
}

const answer = (inForce: number, waiting: number): string => {
  const allowed = inForce === 0 ? "Nothing is allowed now" : `${countText(inForce, "limit")} allowed now`;
  return waiting === 0 ? `${allowed}.` : `${allowed}; ${waiting} to decide.`;
};
