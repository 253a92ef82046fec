"use client";

import { useState } from "react";
import { countText, dayText } from "@/app/_parts/format";
import { Said } from "@/app/_parts/said.client";
import { useSay } from "@/app/_parts/say.client";
import { Choice } from "@/app/_ui/choice";
import { Dialog } from "@/app/_ui/dialog.client";
import { TextField } from "@/app/_ui/field";
import { Notice } from "@/app/_ui/notice";
import { PageHeading } from "@/app/_ui/page";
import { Panel } from "@/app/_ui/panel";
import styles from "@/app/set-up/set-up.module.css";
import { useView } from "@/app/set-up/use-view.client";
import type { RuleLine, RulesView } from "@/lib/schemas/rules";
import { ChangesTable } from "./changes-table.client";
import { OpenChange } from "./open-change.client";
import { ProposeForm } from "./propose-form.client";
import { RuleCard } from "./rule-card.client";

type Shown = "all" | "changed" | "fired" | "wrong";
const SHOWN = [
  { value: "all", label: "all" },
  { value: "changed", label: "changed here" },
  { value: "fired", label: "fired" },
  { value: "wrong", label: "set wrong?" },
] as const;

const isShown = (shown: Shown, { version, fired, setWrong }: RuleLine): boolean =>
  shown === "all" ||
  (shown === "changed" && version > 0) ||
  (shown === "fired" && fired > 0) ||
  (shown === "wrong" && setWrong);

/** The limits by which every room is judged. One person proposes a change, a second one approves it. */
export function RulesManager({ initial }: { initial: RulesView }) {
  const { view, again } = useView("/api/v1/set-up/rules", initial);
  const say = useSay();
  const [shown, setShown] = useState<Shown>("all");
  const [sought, setSought] = useState("");
  const [changing, setChanging] = useState<RuleLine | null>(null);
  const rules = view.rules.filter(
    (rule) => isShown(shown, rule) && `${rule.id} ${rule.what}`.toLowerCase().includes(sought.trim().toLowerCase()),
  );
  const wrong = view.rules.filter(({ setWrong }) => setWrong).length;
  return (
    <>
      <PageHeading
        title="Rules"
        sub={say(
          `${countText(view.rules.length, "rule")}, settings version ${view.settingsVersion}. Counted from ${dayText(view.from)} to ${dayText(view.to)}, over ${countText(view.mornings, "morning")} on which rooms ran.`,
        )}
      />
      <div className={styles.stack}>
        {view.open.map((change) => (
          <OpenChange
            key={change.id}
            change={change}
            rule={view.rules.find(({ id }) => id === change.rule)}
            toJudge={view.toJudge}
            onDecided={again}
          />
        ))}
        {wrong > 0 ? (
          <Notice tone="heed" title={`${countText(wrong, "rule")} set wrong?`}>
            <p>
              <Said>
                It shows in more than one room in five on an ordinary morning. People stop reading what is always there.
              </Said>
            </p>
          </Notice>
        ) : null}
        <div className={styles.pair}>
          <Choice legend="Show" options={SHOWN} value={shown} onChange={setShown} />
          <TextField
            label="Find a rule"
            type="search"
            value={sought}
            onChange={(event) => setSought(event.target.value)}
          />
        </div>
        <Panel title="What the counts mean">
          <p className={styles.soft}>
            <Said>
              A rule fired when its reason appeared in a room that did not show it before. Somebody acted when, while it
              stood there or within ten minutes of its going, a task of this rule was finished, its limit was allowed,
              or the room's workstation was held, swapped or given another part. An ordinary morning is the middle one
              of those mornings by the share of running rooms that showed it before noon.
            </Said>
          </p>
        </Panel>
        {rules.length === 0 ? <p className={styles.soft}>No rule is like that.</p> : null}
        {rules.map((rule) => (
          <RuleCard
            key={rule.id}
            rule={rule}
            open={view.open.some((change) => change.rule === rule.id)}
            onChange={() => setChanging(rule)}
          />
        ))}
        <ChangesTable changes={view.past} at={view.at} />
      </div>
      <Dialog open={changing !== null} title={`Change ${changing?.id ?? ""}`} onClose={() => setChanging(null)}>
        {changing ? (
          <ProposeForm
            rule={changing}
            onProposed={() => {
              setChanging(null);
              again();
            }}
          />
        ) : null}
      </Dialog>
    </>
  );
}
