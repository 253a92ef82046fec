import { whenText } from "@/app/_parts/format";
import type { MarkShape } from "@/app/_parts/mark-shapes";
import { MarkedWord, type Tone } from "@/app/_parts/readiness-mark";
import { DefinitionList } from "@/app/_ui/definition-list";
import type { Timestamp } from "@/lib/units/time";
import { concerns, type Finding, type PartView, type PathNode } from "./gas-path-nodes";
import styles from "./part-record.module.css";
import { ReadingSeries } from "./reading-series";
import { STANDING_WORDS } from "./tone-words";

const LOOKS: Record<PartView["standing"], { shape: MarkShape; tone: Tone }> = {
  failing: { shape: "barred", tone: "stop" },
  owed: { shape: "open-pins", tone: "due" },
  passing: { shape: "seated", tone: "go" },
  noted: { shape: "closed", tone: "soft" },
};

interface RecordProps {
  node: PathNode;
  now: Timestamp;
  zone: string;
}

/** The latest record of each part at one place: what was found, by whom and when, and the limit it is judged by. */
export function PartRecords({ node, now, zone }: RecordProps) {
  return node.parts.map((part) => (
    <section key={part.key} className={styles.part} aria-label={part.itemName}>
      <div className={styles.head}>
        <h3>{part.itemName}</h3>
        <MarkedWord {...LOOKS[part.standing]} size={20}>
          {STANDING_WORDS[part.standing]}
        </MarkedWord>
      </div>
      <p className={styles.shown}>
        {part.shown ?? "Not answered yet"}
        {part.worth ? <small>{part.worth}</small> : null}
      </p>
      {part.since ? <p className={styles.reason}>{part.since}</p> : null}
      <ReadingSeries part={part} now={now} zone={zone} />
      <DefinitionList
        entries={[
          { term: "Limit", value: part.limit },
          { term: "About", value: part.subjectName === node.title ? null : part.subjectName },
          { term: "When", value: part.at ? whenText(part.at, now, zone) : null },
          { term: "By", value: part.by },
        ]}
      />
      {node.reasons
        .filter((reason) => concerns(reason, part))
        .map((reason) => (
          <Reason key={`${reason.rule}:${reason.subject.id}`} reason={reason} />
        ))}
    </section>
  ));
}

function Reason({ reason }: { reason: Finding }) {
  return (
    <div className={styles.reason}>
      <p>{reason.text}</p>
      <p className={styles.citation}>
        {reason.citation} · rules version {reason.settingsVersion}
      </p>
    </div>
  );
}
