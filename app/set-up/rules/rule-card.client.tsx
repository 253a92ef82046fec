"use client";

import { countText } from "@/app/_parts/format";
import { useMayDo } from "@/app/_parts/session.client";
import { Button } from "@/app/_ui/button.client";
import styles from "@/app/set-up/set-up.module.css";
import type { RuleLine } from "@/lib/schemas/rules";
import { nameText, SEVERITY_WORDS, shareText, valueText } from "./words";

/** One rule: what it says, its limits as shipped and as set here, and what came of it. */
export function RuleCard({ rule, open, onChange }: { rule: RuleLine; open: boolean; onChange: () => void }) {
  const mayPropose = useMayDo("propose-rules");
  return (
    <section className={styles.rule} aria-label={rule.what}>
      <div className={styles.line}>
        <h3>{rule.what}</h3>
        {mayPropose ? (
          <Button
            disabledReason={open ? "A change is proposed already" : null}
            onClick={onChange}
            aria-label={`Change: ${rule.what}`}
          >
            Change
          </Button>
        ) : null}
      </div>
      <div className={styles.facts}>
        <span className={styles.soft}>{rule.id}</span>
        <span>{rule.severity ? SEVERITY_WORDS[rule.severity] : "sets times and amounts"}</span>
        <span className={styles.heed}>{rule.on ? "on" : "off"}</span>
        <span>{rule.version === 0 ? "as shipped" : `set here, version ${rule.version}`}</span>
      </div>
      {rule.values.length > 0 ? (
        <dl className={styles.facts}>
          {rule.values.map(({ name, present, shipped }) => (
            <div key={name}>
              <dt className={styles.soft}>{nameText(name)}</dt>
              <dd className={styles.value}>
                {valueText(present)}
                {valueText(present) === valueText(shipped) ? null : (
                  <span className={styles.soft}> · shipped {valueText(shipped)}</span>
                )}
              </dd>
            </div>
          ))}
        </dl>
      ) : null}
      {rule.severity === null ? null : <Effect rule={rule} />}
      {(rule.citation ?? rule.values[0]?.citation) ? (
        <p className={styles.soft}>Source: {rule.citation ?? rule.values[0]?.citation}</p>
      ) : null}
    </section>
  );
}

function Effect({ rule: { fired, acted, ordinaryShare, setWrong, everyMorning } }: { rule: RuleLine }) {
  return (
    <div className={styles.facts}>
      <span>Fired {countText(fired, "time")}</span>
      <span>somebody acted after {acted}</span>
      {ordinaryShare === null ? null : <span>{shareText(ordinaryShare)} of the rooms on an ordinary morning</span>}
      {setWrong ? <span className={styles.heed}>◆ set wrong?</span> : null}
      {everyMorning ? <span className={styles.soft}>owed every morning by its nature</span> : null}
    </div>
  );
}
