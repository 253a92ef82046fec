import { useState } from "react";
import type { MarkShape } from "@/app/_parts/mark-shapes";
import { MarkedWord, type Tone } from "@/app/_parts/readiness-mark";
import styles from "./gas-path-list.module.css";
import { type NodeTone, opens, type PathNode } from "./gas-path-nodes";
import type { PathZone } from "./gas-path-places";
import { TONE_WORDS } from "./tone-words";

interface ListProps {
  nodes: readonly PathNode[];
  onOpen: (node: PathNode) => void;
}

const ZONES: readonly { zone: PathZone; title: string }[] = [
  { zone: "beside", title: "Beside the gas path" },
  { zone: "high", title: "High pressure: cylinders" },
  { zone: "intermediate", title: "Intermediate pressure: pipelines" },
  { zone: "low", title: "Low pressure: to the common gas outlet" },
  { zone: "breathing", title: "Breathing system" },
  { zone: "scavenging", title: "Scavenging" },
];

/** The picture's content in words, zone by zone: what a phone and a screen reader get. */
export function GasPathList({ nodes, onOpen }: ListProps) {
  const zones = ZONES.map((entry) => ({ ...entry, nodes: nodes.filter((node) => node.zone === entry.zone) }));
  return (
    <div className={styles.zones}>
      {zones
        .filter((entry) => entry.nodes.length > 0)
        .map((entry) => (
          <Zone key={entry.zone} title={entry.title} nodes={entry.nodes} onOpen={onOpen} />
        ))}
    </div>
  );
}

/** Opens by itself where something is amiss, and never closes under somebody's hand. */
function Zone({ title, nodes, onOpen }: ListProps & { title: string }) {
  const stands = standsOpen(nodes);
  const [stood, setStood] = useState(stands);
  const [open, setOpen] = useState(stands);
  if (stands !== stood) {
    setStood(stands);
    if (stands) setOpen(true);
  }
  return (
    <details className={styles.zone} open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <h3>{title}</h3>
        <span className={styles.sub}>{summaryOf(nodes)}</span>
      </summary>
      <PlaceList nodes={nodes} onOpen={onOpen} />
    </details>
  );
}

const isOpenCase = ({ tone }: PathNode): boolean => tone === "stop" || tone === "limit" || tone === "due";

/** A zone with something amiss, or with only some of it to check, stands open; one that nobody has begun does not. */
function standsOpen(nodes: readonly PathNode[]): boolean {
  const asked = nodes.filter(({ parts }) => parts.length > 0);
  return asked.some(isOpenCase) && !asked.every(({ tone }) => tone === "due");
}

function summaryOf(nodes: readonly PathNode[]): string {
  const asked = nodes.filter(({ parts }) => parts.length > 0);
  const open = asked.filter(isOpenCase);
  if (open.length === 0) return "in order";
  const words = [...new Set(open.map(({ tone }) => TONE_WORDS[tone]))];
  return `${open.length} of ${asked.length} ${words.join(", ")}`;
}

/** Places as plates, each a button to its records. */
export function PlaceList({ nodes, onOpen }: ListProps) {
  return (
    <ul className={styles.places}>
      {nodes.map((node) => (
        <li key={node.id} id={`part-${node.id}`}>
          {opens(node) ? (
            <button type="button" className={styles.place} onClick={() => onOpen(node)}>
              <PlaceText node={node} />
            </button>
          ) : (
            <div className={styles.place}>
              <PlaceText node={node} />
            </div>
          )}
        </li>
      ))}
    </ul>
  );
}

const LOOKS: Record<NodeTone, { shape: MarkShape; tone: Tone } | null> = {
  stop: { shape: "barred", tone: "stop" },
  limit: { shape: "half-seated", tone: "limit" },
  due: { shape: "open-pins", tone: "due" },
  work: { shape: "due", tone: "plain" },
  go: { shape: "seated", tone: "go" },
  none: null,
};

function PlaceText({ node }: { node: PathNode }) {
  const look = node.parts.length > 0 ? LOOKS[node.tone] : null;
  return (
    <>
      <span className={styles.title}>{node.title}</span>
      <span className={styles.reading}>
        <span className={styles.value}>{node.value}</span> <span className={styles.sub}>{node.sub}</span>
      </span>
      {look ? (
        <span className={styles.standing}>
          <MarkedWord shape={look.shape} tone={look.tone} size={18}>
            {TONE_WORDS[node.tone]}
          </MarkedWord>
        </span>
      ) : null}
    </>
  );
}
