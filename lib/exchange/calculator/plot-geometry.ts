import { type Extent, extents, type LineStyle, type Plot, type PlotLine, rounded, ticks } from "./plot";

/** Where everything of a plot stands, in the units of its drawing. */
export interface Drawn {
  readonly width: number;
  readonly height: number;
  readonly frame: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
  readonly xTicks: readonly Tick[];
  readonly yTicks: readonly Tick[];
  readonly paths: readonly { readonly name: string; readonly style: LineStyle; readonly d: string }[];
  readonly dots: readonly {
    readonly name: string;
    readonly x: number;
    readonly y: number;
    readonly isAnswer: boolean;
  }[];
}

export interface Tick {
  readonly at: number;
  readonly text: string;
}

const WIDTH = 560;
const HEIGHT = 320;
const FRAME = { left: 56, right: 548, top: 14, bottom: 272 };
/** Dots that are not the answer itself are drawn smaller. */
const PLAIN = new Set(["reading", "read"]);

export function drawn(plot: Plot): Drawn {
  const { x, y } = extents(plot);
  const toX = (value: number) => place(value, x, FRAME.left, FRAME.right);
  const toY = (value: number) => place(value, y, FRAME.bottom, FRAME.top);
  return {
    width: WIDTH,
    height: HEIGHT,
    frame: FRAME,
    xTicks: ticks(x.from, x.to, 7).map((value) => ({ at: toX(value), text: rounded(value) })),
    yTicks: ticks(y.from, y.to, 6).map((value) => ({ at: toY(value), text: rounded(value) })),
    paths: plot.lines.map((line) => ({ name: line.name, style: line.style, d: pathOf(plot.xs, line, toX, toY) })),
    dots: plot.points.map((point) => ({
      name: point.name,
      x: toX(point.x),
      y: toY(point.y),
      isAnswer: !PLAIN.has(point.name),
    })),
  };
}

const place = (value: number, { from, to }: Extent, start: number, end: number): number =>
  Number((start + ((value - from) / (to - from || 1)) * (end - start)).toFixed(1));

/** A line begins anew after a gap. */
function pathOf(
  xs: readonly number[],
  { ys }: PlotLine,
  toX: (value: number) => number,
  toY: (value: number) => number,
): string {
  let open = false;
  return xs
    .map((x, at) => {
      const y = ys[at] ?? null;
      const pen = open ? "L" : "M";
      open = y !== null;
      return y === null ? "" : `${pen}${toX(x)} ${toY(y)}`;
    })
    .join("");
}

/** What the plot shows, in one sentence, for who does not see it. */
export function described({ x, y, lines, points }: Plot): string {
  const names = lines.map(({ name }) => name).join(", ");
  const answer = points.find(({ name }) => !PLAIN.has(name));
  const where = answer
    ? ` ${answer.name} lies at ${rounded(answer.x)} ${x.unit} and ${rounded(answer.y)} ${y.unit}`.trimEnd().concat(".")
    : "";
  return `${y.label} against ${x.label.toLowerCase()}; lines: ${names}.${where}`;
}
