import type { Gas } from "@/lib/domain/vocabulary";
import type { PathNode } from "./gas-path-nodes";

/** Where everything of the picture stands, in its own units; the browser scales it. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}
export interface Placed extends Box {
  readonly node: PathNode;
}
export interface Pipe {
  readonly key: string;
  readonly d: string;
  /** A gas, the mixed fresh gas, the breathing circle, or a link that carries no gas. */
  readonly carries: Gas | "mixed" | "circle" | "link";
}
export interface Glyph {
  readonly key: string;
  readonly kind: "regulator" | "wall";
  readonly x: number;
  readonly y: number;
}
export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly zones: readonly (Box & { readonly title: string })[];
  readonly nodes: readonly Placed[];
  readonly pipes: readonly Pipe[];
  readonly glyphs: readonly Glyph[];
}

export const WIDTH = 1128;
const TOP = 44;
export const HEIGHT = 62;
export const STEP = 76;
/** Left edge and width of each column of places. */
export const COLUMN = {
  high: { x: 10, width: 192 },
  intermediate: { x: 266, width: 176 },
  flow: { x: 474, width: 134 },
  vapor: { x: 628, width: 148 },
  inner: { x: 812, width: 146 },
  outer: { x: 972, width: 146 },
} as const;
export type ColumnName = keyof typeof COLUMN;

export const REGULATOR_X = 217;
export const BUS_X = 238;
export const BRANCH_X = 456;
export const RISER_X = 793;

export const rowY = (row: number): number => TOP + row * STEP;
export const middle = ({ y, height }: Box): number => y + height / 2;
export const right = ({ x, width }: Box): number => x + width;
export const centre = ({ x, width }: Box): number => x + width / 2;

export function at(node: PathNode, column: ColumnName, row: number, height = HEIGHT): Placed {
  return { node, ...COLUMN[column], y: rowY(row), height };
}

/** A run of places, each fed from the one above it. */
export function down(boxes: readonly Placed[], carries: Pipe["carries"]): Pipe[] {
  return boxes.slice(1).map((box, index) => {
    const above = boxes[index] as Placed;
    return { key: `down-${box.node.id}`, carries, d: `M${centre(box)} ${above.y + above.height}V${box.y}` };
  });
}
