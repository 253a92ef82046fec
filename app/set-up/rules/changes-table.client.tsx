"use client";

import { whenText } from "@/app/_parts/format";
import { useSession } from "@/app/_parts/session.client";
import { DataTable } from "@/app/_ui/data-table";
import { Panel } from "@/app/_ui/panel";
import styles from "@/app/set-up/set-up.module.css";
import type { RuleChangeView } from "@/lib/schemas/rules";
import { settingText } from "./words";

/** Every change that was decided on: by whom proposed, by whom decided, from what to what. */
export function ChangesTable({ changes, at }: { changes: readonly RuleChangeView[]; at: string }) {
  const zone = useSession()?.facility.timeZone ?? "UTC";
  return (
    <Panel title="Earlier changes">
      {changes.length === 0 ? (
        <p className={styles.soft}>Nothing was changed yet: every rule is as it was shipped.</p>
      ) : (
        <DataTable name="Earlier changes of rules">
          <thead>
            <tr>
              <th scope="col">Rule</th>
              <th scope="col">Was</th>
              <th scope="col">Asked for</th>
              <th scope="col">Proposed</th>
              <th scope="col">Decided</th>
              <th scope="col">Version</th>
            </tr>
          </thead>
          <tbody>
            {changes.map((change) => (
              <tr key={change.id}>
                <th scope="row">{change.rule}</th>
                <td>{settingText(change.was)}</td>
                <td>{settingText(change.setting)}</td>
                <td>
                  {change.proposedBy}, {whenText(change.proposedAt, at, zone)}: {change.reason}
                </td>
                <td>
                  {change.decision} by {change.decidedBy}
                  {change.decidedAt === null ? null : `, ${whenText(change.decidedAt, at, zone)}`}
                  {change.decisionReason === null ? null : `: ${change.decisionReason}`}
                </td>
                <td className={styles.number}>{change.settingsVersion ?? ""}</td>
              </tr>
            ))}
          </tbody>
        </DataTable>
      )}
    </Panel>
  );
}
