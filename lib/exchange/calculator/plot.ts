/** A small plot as data: the page draws it, its table tells it, and the documentation prints it. */
export interface Axis {
  readonly label: string;
  readonly unit: string;
}

/** `edge` is an end of an uncertainty, `limit` a line that is not to be crossed. */
export type LineStyle = "first" | "second" | "third" | "edge" | "limit";

export interface PlotLine {
  readonly name: string;
  readonly style: LineStyle;
  /** One for each x; null where there is none. */
  readonly ys: readonly (number | null)[];
}

export interface PlotPoint {
  readonly name: string;
  readonly x: number;
  readonly y: number;
}

export interface Plot {
  readonly title: string;
  readonly x: Axis;
  readonly y: Axis;
  readonly xs: readonly number[];
  readonly lines: readonly PlotLine[];
  readonly points: readonly PlotPoint[];
}

/** Evenly from one end to the other, both included. */
export function steps(from: number, to: number, count = 60): number[] {
  return Array.from({ length: count + 1 }, (_, step) => from + ((to - from) * step) / count);
}

/** Round numbers for an axis: 1, 2 or 5 times a power of ten apart, at most `most` of them. */
export function ticks(from: number, to: number, most = 6): number[] {
  const span = to - from;
  if (!(span > 0)) return [from];
  const rough = span / most;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((times) => times * power).find((size) => size >= rough) ?? rough;
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, place) =>
    Number(((first + place) * step).toPrecision(12)),
  );
}

export interface Extent {
  readonly from: number;
  readonly to: number;
}

export function extents({ xs, lines, points }: Plot): { readonly x: Extent; readonly y: Extent } {
  const ys = [...lines.flatMap((line) => line.ys), ...points.map(({ y }) => y)].filter((y) => y !== null);
  return { x: extentOf([...xs, ...points.map(({ x }) => x)]), y: extentWithZero(ys) };
}

const extentOf = (values: readonly number[]): Extent => ({ from: Math.min(...values), to: Math.max(...values) });

/** From zero, unless everything happens in the upper part of the scale. */
function extentWithZero(values: readonly number[]): Extent {
  const { from, to } = extentOf(values);
  const spare = (to - from) * 0.06 || Math.abs(to) * 0.1 || 1;
  const low = from >= 0 && from < 0.6 * to ? 0 : from - spare;
  return { from: low, to: to + spare };
}

/** A number for reading: four figures, whole from a thousand on. */
export function rounded(value: number): string {
  const size = Math.abs(value);
  const decimals = size >= 100 || size === 0 ? 0 : size >= 10 ? 1 : size >= 1 ? 2 : 3;
  return String(Number(value.toFixed(decimals)));
}
