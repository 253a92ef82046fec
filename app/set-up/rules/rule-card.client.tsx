"use client";

import { countText } from "@/app/_parts/format";
import { Said } from "@/app/_parts/said.client";
import { useMayDo, useSession } from "@/app/_parts/session.client";
import { Button } from "@/app/_ui/button.client";
import styles from "@/app/set-up/set-up.module.css";
import type { RuleLine } from "@/lib/schemas/rules";
import { nameText, SEVERITY_WORDS, shareText, siteValueText, valueText } from "./words";

/** One rule: what it says, its limits as shipped and as set here, and what came of it. */
export function RuleCard({ rule, open, onChange }: { rule: RuleLine; open: boolean; onChange: () => void }) {
  const mayPropose = useMayDo("propose-rules");
  return (
    <details className={styles.rule}>
      <summary className={styles.ruleHead}>
        <h3>
          <Said>{rule.what}</Said>
        </h3>
        <Standing rule={rule} />
      </summary>
      <Values rule={rule} />
      <p className={styles.soft}>{rule.id}</p>
      {mayPropose ? (
        <div>
          <Button
            disabledReason={open ? "A change is proposed already" : null}
            onClick={onChange}
            aria-label={`Change: ${rule.what}`}
          >
            Change
          </Button>
        </div>
      ) : null}
    </details>
  );
}

/** Whether it holds, by whose word, and what came of it: in one line, because the list is long. */
function Standing({ rule }: { rule: RuleLine }) {
  return (
    <span className={styles.facts}>
      <span className={styles.heed}>{rule.on ? "on" : "off"}</span>
      <span>{rule.severity ? SEVERITY_WORDS[rule.severity] : "sets times and amounts"}</span>
      <span className={rule.version === 0 ? styles.soft : styles.heed}>
        {rule.version === 0 ? "as shipped" : `set here, version ${rule.version}`}
      </span>
      {rule.severity === null ? null : <Effect rule={rule} />}
    </span>
  );
}

function Values({ rule }: { rule: RuleLine }) {
  const unit = useSession()?.facility.pressureUnit ?? "psi";
  return (
    <>
      {rule.values.length > 0 ? (
        <dl className={styles.facts}>
          {rule.values.map(({ name, present, shipped }) => (
            <div key={name}>
              <dt className={styles.soft}>{nameText(name)}</dt>
              <dd className={styles.value}>
                {siteValueText(present, unit)}
                {valueText(present) === valueText(shipped) ? null : (
                  <span className={styles.soft}> · shipped {valueText(shipped)}</span>
                )}
              </dd>
            </div>
          ))}
        </dl>
      ) : null}
      {(rule.citation ?? rule.values[0]?.citation) ? (
        <p className={styles.soft}>Source: {rule.citation ?? rule.values[0]?.citation}</p>
      ) : null}
    </>
  );
}

function Effect({ rule: { fired, acted, ordinaryShare, setWrong, everyMorning } }: { rule: RuleLine }) {
  return (
    <>
      <span className={styles.soft}>fired {countText(fired, "time")}</span>
      {fired === 0 ? null : <span className={styles.soft}>somebody acted after {acted}</span>}
      {ordinaryShare === null ? null : (
        <span>
          {shareText(ordinaryShare)} <Said>of the rooms on an ordinary morning</Said>
        </span>
      )}
      {setWrong ? <span className={styles.heed}>◆ set wrong?</span> : null}
      {everyMorning ? <span className={styles.soft}>owed every morning by its nature</span> : null}
    </>
  );
}
