"use client";

import { useRouter } from "next/navigation";
import { type ReactNode, useId } from "react";
import { minutesText } from "@/app/_parts/format";
import styles from "@/app/_parts/plates.module.css";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { ReadinessMark } from "@/app/_parts/readiness-mark";
import { useMayDo } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { LIMIT_WORDS } from "@/app/_parts/words";
import { Button } from "@/app/_ui/button.client";
import type { SparesView } from "@/lib/schemas/moves";
import { owedLines } from "./swap-choice";

type Suitable = SparesView["suitable"][number];
type Unsuitable = SparesView["unsuitable"][number];

interface ListProps<Spare> {
  spares: readonly Spare[];
  chosen: string | null;
  onChoose: (workstationId: string) => void;
}

/** Checked spares that fit the list, nearest first. */
export function SpareList({ spares, chosen, onChoose }: ListProps<Suitable>) {
  const name = useId();
  return (
    <fieldset>
      <legend className={styles.legend}>Comes in, the nearest first</legend>
      <div className={styles.plates}>
        {spares.map((spare) => {
          const isChosen = spare.workstationId === chosen;
          return (
            <Plate key={spare.workstationId} name={name} spare={spare} chosen={isChosen} onChoose={onChoose}>
              <span className={styles.facts}>
                <ReadinessMark readiness={spare.state} size={20} />
                <strong>{minutesText(spare.minutes)}</strong>
              </span>
              <span className={styles.why}>{spare.why}</span>
              {isChosen ? <Particulars spare={spare} /> : null}
            </Plate>
          );
        })}
      </div>
    </fieldset>
  );
}

function Plate({
  name,
  spare,
  chosen,
  onChoose,
  children,
}: {
  name: string;
  spare: Suitable | Unsuitable;
  chosen: boolean;
  onChoose: (workstationId: string) => void;
  children: ReactNode;
}) {
  return (
    <label className={styles.plate}>
      <input
        type="radio"
        name={name}
        value={spare.workstationId}
        checked={chosen}
        onChange={() => onChoose(spare.workstationId)}
      />
      <span className={styles.plateText}>
        <span className={styles.tag}>
          <strong>{spare.tag}</strong> {spare.model}
        </span>
        {children}
      </span>
    </label>
  );
}

/** What it owes on arrival, what it may not do, and what of the room no swap clears. */
function Particulars({ spare: { owed, limits, roomRemains } }: { spare: Suitable }) {
  return (
    <>
      {owed.length > 0 ? (
        <span className={styles.owed}>
          <span>Owed on arrival:</span>
          {owedLines(owed).map((line) => (
            <span key={line}>{line}</span>
          ))}
        </span>
      ) : null}
      {limits.length > 0 ? (
        <span className={styles.limit}>With a limit: {limits.map((limit) => LIMIT_WORDS[limit]).join(", ")}</span>
      ) : null}
      {roomRemains.map((text) => (
        <span key={text} className={styles.remains}>
          Stays with the room: {text}
        </span>
      ))}
    </>
  );
}

/** The others, each with why not. One that is only unchecked may be taken by who says so, or checked first. */
export function UnsuitableList({
  spares,
  chosen,
  onChoose,
  startsOpen,
}: ListProps<Unsuitable> & { startsOpen: boolean }) {
  const name = useId();
  if (spares.length === 0) return null;
  return (
    <details className={styles.others} open={startsOpen || spares.some((one) => one.workstationId === chosen)}>
      <summary>
        {spares.length === 1 ? "One other does not suit" : `${spares.length} others do not suit`}, and why
      </summary>
      <div className={styles.plates}>
        {spares.map((spare) =>
          spare.acceptable ? (
            <div key={spare.workstationId}>
              <Plate name={name} spare={spare} chosen={spare.workstationId === chosen} onChoose={onChoose}>
                <span className={styles.why}>{placed(spare)}</span>
              </Plate>
              {spare.checked ? null : <CheckFirst spare={spare} />}
            </div>
          ) : (
            <div key={spare.workstationId} className={styles.refusedPlate}>
              <span className={styles.tag}>
                <strong>{spare.tag}</strong> {spare.model}
              </span>
              <span className={styles.why}>{placed(spare)}</span>
            </div>
          ),
        )}
      </div>
    </details>
  );
}

const placed = ({ store, why }: Unsuitable): string => (store ? `${why} (in ${store.name})` : why);

function CheckFirst({ spare }: { spare: Unsuitable }) {
  const router = useRouter();
  const may = useMayDo("start-check");
  const start = useCommand("start-check");
  if (!may) return null;
  const begin = async () => {
    const reply = await start.send({ workstationId: spare.workstationId, kind: "daily" });
    if (reply?.ok) router.push(`/checks/${reply.value.checkId}`);
  };
  return (
    <>
      <Button look="quiet" busy={start.busy} onClick={begin}>
        Check {spare.tag} first
      </Button>
      <ProblemNotice problem={start.problem} />
    </>
  );
}
