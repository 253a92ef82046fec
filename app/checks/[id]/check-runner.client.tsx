"use client";

import { useMemo, useState } from "react";
import { isUntouched, type Typed } from "@/app/_parts/answer/typed";
import { useSession } from "@/app/_parts/session.client";
import { Page } from "@/app/_ui/page";
import type { CheckItemView, CheckView } from "@/lib/schemas/check";
import type { KeptOnDevice } from "@/lib/schemas/offline";
import { CheckFooter } from "./check-footer.client";
import { CheckHeader } from "./check-header.client";
import styles from "./check-runner.module.css";
import { type CheckState, nextOpen, standingOf } from "./check-state";
import { FaultDialog } from "./fault-dialog.client";
import { ItemPanel } from "./item-panel.client";
import { ItemRail } from "./item-rail.client";
import { LastAnswer } from "./last-answer.client";
import { OpenChecksStrip } from "./open-checks-strip";
import { SelfTest } from "./self-test.client";
import { SignView } from "./sign-view.client";
import { type Doubt, doubtOf, SureDialog } from "./sure-dialog.client";
import { TakeOver } from "./take-over.client";
import { useCheck } from "./use-check.client";
import { useOpenChecks } from "./use-open-checks.client";
import { usePlace } from "./use-place.client";

/** A check being done: one item at a time, the list beside it on a desk, and at its end the signature. */
export function CheckRunner({ check, began = null }: { check: CheckView; began?: KeptOnDevice["began"] }) {
  const session = useSession();
  const person = usePerson();
  const { state, sending, keeps, hurry, type, give, refresh, forget } = useCheck(check, person, began);
  const [doubt, setDoubt] = useState<Doubt | null>(null);
  const [place, goTo] = usePlace(check.items, nextOpen(state, null)?.key ?? "sign");
  const [last, setLast] = useState<string | null>(null);
  const [faulty, setFaulty] = useState(false);
  const { here, elsewhere, refresh: readOpen } = useOpenChecks(check.id);
  const zone = session?.facility.timeZone ?? "UTC";
  const selfTest = check.items.find((one) => one.item === "self-test");
  const awaited = selfTest !== undefined && standingOf(state, selfTest).answer === null;
  const runningSince = awaited ? (here?.check.selfTestSince ?? null) : null;
  const item = check.items.find((one) => one.key === place) ?? null;

  const goOn = (from: CheckItemView, answered: boolean) => {
    setLast(answered ? from.key : null);
    goTo(nextOpen(state, from.key)?.key ?? "sign");
  };
  const complete = (of: CheckItemView, typed: Typed, sure = false) => {
    const asks = sure ? null : doubtOf(of, typed);
    setDoubt(asks);
    if (asks) return;
    const failedBefore = standingOf(state, of).state === "failing";
    const outcome = give(of, typed, sure);
    if (outcome === "given" || (outcome === "failing" && failedBefore)) goOn(of, true);
  };
  const next = (of: CheckItemView) => {
    const typed = state.typed[of.key];
    if (typed && !isUntouched(typed)) complete(of, typed);
    else goOn(of, false);
  };

  return (
    <Page>
      <div className={styles.runner}>
        <CheckHeader state={state} current={place} sending={sending} keeps={keeps} onGo={goTo} onHurry={hurry} />
        <OpenChecksStrip checks={elsewhere} selfTestSince={runningSince} zone={zone} />
        {here && !here.mine ? <TakeOver check={here.check} now={state.view.at} zone={zone} onTaken={readOpen} /> : null}
        <div className={styles.columns}>
          <nav className={styles.rail} aria-label="Items of this check">
            <ItemRail state={state} current={place} onGo={goTo} />
            <button
              type="button"
              className={styles.sign}
              aria-current={item ? undefined : "step"}
              onClick={() => goTo("sign")}
            >
              Review and sign
            </button>
          </nav>
          <div className={styles.main}>
            <LastAnswer state={state} last={last} onChange={goTo} />
            {item ? (
              <ItemPanel
                state={state}
                item={item}
                position={`${check.items.indexOf(item) + 1} of ${check.items.length}`}
                onTyped={(typed) => type(item, typed)}
                onComplete={(typed) => complete(item, typed)}
                onNext={() => next(item)}
                before={
                  item === selfTest && awaited ? (
                    <SelfTest
                      checkId={check.id}
                      since={runningSince}
                      zone={zone}
                      onStarted={() => {
                        readOpen();
                        goOn(item, false);
                      }}
                    />
                  ) : null
                }
                footer={<CheckFooter {...footerOf(state, item)} onFault={() => setFaulty(true)} />}
              />
            ) : (
              <SignView state={state} sending={sending} onGo={goTo} refresh={refresh} onSigned={forget} />
            )}
          </div>
        </div>
        <SureDialog
          doubt={doubt}
          onSure={(asked) => complete(asked.item, asked.typed, true)}
          onChange={() => setDoubt(null)}
        />
        {item ? (
          <FaultDialog
            key={item.key}
            item={item}
            workstationId={check.workstation.id}
            open={faulty}
            onClose={() => setFaulty(false)}
            onFail={(typed) => {
              setFaulty(false);
              complete(item, typed);
            }}
          />
        ) : null}
      </div>
    </Page>
  );
}

const NOBODY = { id: "", name: "", facilityId: "" };

/** Who answers here, and for which facility the device keeps it. */
function usePerson() {
  const session = useSession();
  return useMemo(() => (session ? { ...session.person, facilityId: session.facility.id } : NOBODY), [session]);
}

/** What Next will do from here, said on the button. */
function footerOf(state: CheckState, item: CheckItemView) {
  const typed = state.typed[item.key];
  const begun = typed !== undefined && !isUntouched(typed);
  const answered = standingOf(state, item).answer !== null;
  const target = nextOpen(state, item.key)?.title ?? "review and sign";
  return { doing: begun ? "Record" : answered ? "Next" : "Later", target, primary: begun || answered } as const;
}
