"use client";

import { LEAK_TEST_WORDS } from "@/app/set-up/equipment/words";
import styles from "@/app/set-up/set-up.module.css";
import { LEAK_TESTS } from "@/lib/domain/vocabulary";
import type { Item } from "./draft-screen.client";

type Applies = Item["applies"];

const WHERE = [
  { field: "nitrousOxideAtHand", label: "Only where nitrous oxide is piped or on a yoke" },
  { field: "outletSelector", label: "Only on models with a gas-outlet selector" },
  { field: "wasteGasActive", label: "Only in rooms with active waste-gas extraction" },
  { field: "vacuum", label: "Only in rooms with piped vacuum" },
  { field: "vaporizerFitted", label: "Only where a vaporizer is mounted" },
  { field: "indicatorAbsorbent", label: "Only with an absorbent that changes colour" },
  { field: "selfTest", label: "Only on models with a self-test" },
  { field: "unlessSelfTestCovers", label: "Not where the model’s self-test covers it" },
] as const;

/** Where an item is asked at all: every condition that is ticked must hold. */
export function AppliesFields({ applies, onChange }: { applies: Applies; onChange: (applies: Applies) => void }) {
  const turn = (field: (typeof WHERE)[number]["field"], on: boolean) => {
    const { [field]: _before, ...rest } = applies;
    onChange(on ? { ...rest, [field]: true } : rest);
  };
  const tests = applies.leakTest ?? [];
  const turnTest = (test: (typeof LEAK_TESTS)[number], on: boolean) => {
    const { leakTest: _before, ...rest } = applies;
    const next = LEAK_TESTS.filter((one) => (one === test ? on : tests.includes(one)));
    onChange(next.length > 0 ? { ...rest, leakTest: next } : rest);
  };
  return (
    <fieldset>
      <legend className={styles.legend}>Where it is asked</legend>
      {applies.gas ? <p className={styles.soft}>Of {applies.gas.replaceAll("-", " ")} alone.</p> : null}
      {applies.scheme ? <p className={styles.soft}>In the {applies.scheme} scheme alone.</p> : null}
      {WHERE.map(({ field, label }) => (
        <label key={field} className={styles.check}>
          <input
            type="checkbox"
            checked={applies[field] ?? false}
            onChange={({ target }) => turn(field, target.checked)}
          />
          {label}
        </label>
      ))}
      <p className={styles.soft}>Only for these methods of the leak test (none ticked: for all)</p>
      {LEAK_TESTS.map((test) => (
        <label key={test} className={styles.check}>
          <input
            type="checkbox"
            checked={tests.includes(test)}
            onChange={({ target }) => turnTest(test, target.checked)}
          />
          {LEAK_TEST_WORDS[test]}
        </label>
      ))}
    </fieldset>
  );
}
