import { MARK_SHAPES, type MarkShape } from "@/app/_parts/mark-shapes";
import { classNames } from "@/app/_ui/class-names";
import type { Scheme } from "@/lib/domain/vocabulary";
import styles from "./gas-path.module.css";
import type { Glyph, Picture, Pipe, Placed } from "./gas-path-grid";
import { layOut } from "./gas-path-layout";
import { type NodeTone, opens, type PathNode } from "./gas-path-nodes";
import { TONE_WORDS } from "./tone-words";

interface PictureProps {
  nodes: readonly PathNode[];
  scheme: Scheme;
  onOpen: (node: PathNode) => void;
}

/** The gas path as gas takes it, in the pressure zones of the trade. Every place is a link to its records. */
export function GasPathPicture({ nodes, scheme, onOpen }: PictureProps) {
  const picture = layOut(nodes.filter(({ zone }) => zone !== "beside"));
  return (
    <svg
      className={classNames(styles.picture, scheme === "ISO" ? styles.iso : styles.us)}
      viewBox={`0 0 ${picture.width} ${picture.height}`}
      aria-label="Gas path, from wall and cylinders to scavenging"
    >
      <Zones zones={picture.zones} />
      {picture.pipes.map((pipe) => (
        <PipeLine key={pipe.key} pipe={pipe} />
      ))}
      {picture.glyphs.map((glyph) => (
        <GlyphMark key={`${glyph.kind}-${glyph.key}`} glyph={glyph} />
      ))}
      {picture.nodes.map((placed) => (
        <NodeBox key={placed.node.id} placed={placed} onOpen={onOpen} />
      ))}
    </svg>
  );
}

function Zones({ zones }: { zones: Picture["zones"] }) {
  return zones.map(({ title, x, y, width, height }) => (
    <g key={title}>
      <rect className={styles.zone} x={x} y={y} width={width} height={height} rx="8" />
      <text className={styles.zoneTitle} x={x + 10} y={y - 10}>
        {title}
      </text>
    </g>
  ));
}

/** A pipe is its gas's colour inside a dark edge, so that a white or yellow one is seen on any ground. */
function PipeLine({ pipe }: { pipe: Pipe }) {
  if (pipe.carries === "link") return <path className={styles.link} d={pipe.d} />;
  if (pipe.carries === "circle") return <path className={styles.circle} d={pipe.d} />;
  return (
    <g>
      <path className={styles.pipeEdge} d={pipe.d} />
      <path className={styles[`gas-${pipe.carries}`]} d={pipe.d} />
      {pipe.carries === "air" ? <path className={styles.airStripe} d={pipe.d} /> : null}
    </g>
  );
}

function GlyphMark({ glyph: { kind, x, y } }: { glyph: Glyph }) {
  if (kind === "wall") return <rect className={styles.glyph} x={x - 3} y={y - 11} width="6" height="22" rx="1" />;
  return <path className={styles.glyph} d={`M${x - 7} ${y - 8}L${x + 7} ${y - 3}V${y + 3}L${x - 7} ${y + 8}z`} />;
}

const TONE_SHAPES: Record<NodeTone, MarkShape | null> = {
  stop: "barred",
  limit: "half-seated",
  due: "open-pins",
  work: "due",
  go: "seated",
  none: null,
};

function NodeBox({ placed, onOpen }: { placed: Placed; onOpen: (node: PathNode) => void }) {
  const { node, x, y, width, height } = placed;
  const empty = node.parts.length === 0;
  const box = (
    <rect
      className={classNames(styles.box, empty ? styles.emptyBox : styles[`tone-${node.tone}`])}
      x={x}
      y={y}
      width={width}
      height={height}
      rx="8"
    />
  );
  if (!opens(node)) {
    return (
      <g>
        {box}
        <NodeText placed={placed} />
      </g>
    );
  }
  return (
    <a
      href={`#part-${node.id}`}
      className={styles.node}
      aria-label={[node.title, node.value, TONE_WORDS[node.tone], node.sub].filter(Boolean).join(", ")}
      onClick={(event) => {
        event.preventDefault();
        onOpen(node);
      }}
    >
      {box}
      <NodeText placed={placed} />
    </a>
  );
}

function NodeText({ placed: { node, x, y, width, height } }: { placed: Placed }) {
  const shape = node.parts.length > 0 ? TONE_SHAPES[node.tone] : null;
  const tall = height > PLAIN_HEIGHT;
  const lines = wrap(node.value, (width - 18) / 7.3, tall ? TALL_LINES : 2);
  const sub = tall || lines.length === 1 ? node.brief : "";
  return (
    <>
      <text className={styles.title} x={x + 10} y={y + 19}>
        {cut(node.title, (width - (shape ? 30 : 14)) / 6.35)}
      </text>
      {lines.map((line, index) => (
        <text
          key={line}
          className={node.parts.length > 0 ? styles.value : styles.none}
          x={x + 10}
          y={y + 38 + 16 * index}
        >
          {line}
        </text>
      ))}
      <text className={styles.sub} x={x + 10} y={y + 38 + 16 * lines.length}>
        {cut(sub, (width - 18) / 5.8)}
      </text>
      {shape ? (
        <svg
          className={styles[`mark-${node.tone}`]}
          x={x + width - 24}
          y={y + 7}
          width="16"
          height="16"
          viewBox="0 0 32 32"
          aria-hidden="true"
        >
          {MARK_SHAPES[shape]}
        </svg>
      ) : null}
    </>
  );
}

/** Above this height a place has room for a few lines. */
const PLAIN_HEIGHT = 62;
const TALL_LINES = 4;

/** Breaks at words; what does not fit into the lines is cut, for the whole text is in the link's name and in the record it opens. */
function wrap(text: string, width: number, most: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && (lines.length === most || last.length + 1 + word.length <= width)) {
      lines[lines.length - 1] = `${last} ${word}`;
    } else lines.push(word);
  }
  return lines.map((line) => cut(line, width));
}

function cut(text: string, most: number): string {
  const whole = Math.floor(most);
  return text.length <= whole ? text : `${text.slice(0, whole - 1).trimEnd()}…`;
}
