import type { Gas } from "@/lib/domain/vocabulary";
import { layCircle } from "./gas-path-circle";
import {
  at,
  type Box,
  BRANCH_X,
  BUS_X,
  COLUMN,
  type ColumnName,
  centre,
  down,
  type Glyph,
  HEIGHT,
  middle,
  type Picture,
  type Pipe,
  type Placed,
  REGULATOR_X,
  right,
  rowY,
  STEP,
  WIDTH,
} from "./gas-path-grid";
import type { PathNode } from "./gas-path-nodes";

/** The picture of one workstation's gas path: lanes for the gases it has, then one line through to scavenging. */
export function layOut(nodes: readonly PathNode[]): Picture {
  const find = (id: string) => nodes.find((node) => node.id === id);
  const lanes = layLanes(nodes);
  const supply = laySupply(lanes, find, nodes);
  const circle = layCircle(supply.outlet, find, nodes);
  const placed = [...lanes.placed, ...supply.placed, ...circle.placed];
  const height = Math.max(...placed.map((box) => box.y + box.height)) + 14;
  return {
    width: WIDTH,
    height,
    zones: zones(height),
    nodes: placed,
    pipes: [...lanes.pipes, ...supply.pipes, ...circle.pipes],
    glyphs: lanes.glyphs,
  };
}

function zones(bottom: number): Picture["zones"] {
  const height = bottom - 34;
  return [
    { x: 4, y: 30, width: 206, height, title: "High pressure: cylinders" },
    { x: 222, y: 30, width: 228, height, title: "Intermediate: pipelines, regulated" },
    { x: 462, y: 30, width: 324, height, title: "Low pressure: to the common gas outlet" },
    { x: 802, y: 30, width: 322, height, title: "Breathing system, scavenging" },
  ];
}

interface Lanes {
  readonly placed: Placed[];
  readonly pipes: Pipe[];
  readonly glyphs: Glyph[];
  readonly rows: number;
  readonly oxygenY: number | null;
}

/** One lane a gas: its cylinders through their regulators, and the pipeline, into one line towards the flow controls. */
function layLanes(nodes: readonly PathNode[]): Lanes {
  const lanes: Lanes = { placed: [], pipes: [], glyphs: [], rows: 0, oxygenY: null };
  let row = 0;
  let oxygenY: number | null = null;
  for (const pipeline of nodes.filter((node) => node.id.startsWith("pipeline-"))) {
    const gas = pipeline.gas as Gas;
    const yokes = nodes.filter((node) => node.zone === "high" && node.gas === gas);
    const rows = Math.max(1, yokes.length);
    const line = at(pipeline, "intermediate", row + (rows - 1) / 2);
    const y = middle(line);
    lanes.placed.push(line);
    yokes.forEach((yoke, index) => {
      const box = at(yoke, "high", row + index);
      lanes.placed.push(box);
      if (yoke.parts.length === 0) return;
      const from = middle(box);
      lanes.pipes.push({ key: yoke.id, carries: gas, d: `M${right(box)} ${from}H${BUS_X}V${y - 12}H${line.x}` });
      lanes.glyphs.push({ key: yoke.id, kind: "regulator", x: REGULATOR_X, y: from });
    });
    if (pipeline.parts.length > 0 || pipeline.value !== "not piped here") {
      lanes.pipes.push({ key: `wall-${gas}`, carries: gas, d: `M${line.x - 12} ${y + 14}H${line.x}` });
      lanes.glyphs.push({ key: `wall-${gas}`, kind: "wall", x: line.x - 14, y: y + 14 });
    }
    lanes.pipes.push({ key: `line-${gas}`, carries: gas, d: `M${right(line)} ${y}H${COLUMN.flow.x}` });
    if (gas === "oxygen") oxygenY = y;
    row += rows;
  }
  return { ...lanes, rows: Math.max(1, row), oxygenY };
}

type Find = (id: string) => PathNode | undefined;

interface Supply {
  readonly placed: Placed[];
  readonly pipes: Pipe[];
  readonly outlet: Box;
}

/** From the gas lines through flow controls and vaporizers to the common gas outlet, with what hangs on the oxygen line below. */
function laySupply(lanes: Lanes, find: Find, nodes: readonly PathNode[]): Supply {
  const placed: Placed[] = [];
  const pipes: Pipe[] = [];
  const put = (id: string, column: ColumnName, row: number, height?: number): Placed | null => {
    const node = find(id);
    if (!node) return null;
    const box = at(node, column, row, height);
    placed.push(box);
    return box;
  };
  const mounts = nodes.filter((node) => node.id.startsWith("mount-"));
  const below = lanes.rows;
  const leakRow = Math.max(below + 1, mounts.length);
  const tall = below * STEP - (STEP - HEIGHT);
  const flow = put("flow-controls", "flow", 0, tall);
  const guard = flow ? put("hypoxic-guard", "flow", below) : put("hypoxic-guard", "flow", 0, tall);
  const interlock = put("interlock", "flow", below + 1);
  if (flow && guard)
    pipes.push({ key: "guard", carries: "link", d: `M${centre(guard)} ${flow.y + flow.height}V${guard.y}` });

  const vapor = mounts.map((node, row) => at(node, "vapor", row));
  placed.push(...vapor);
  const leak = put("leak-test", "vapor", leakRow);
  const outlet = put("outlet", "vapor", leakRow + 1);
  const line = [...vapor, leak, outlet].filter((box) => box !== null);
  const first = line[0];
  if (first)
    pipes.push({
      key: "mixed",
      carries: "mixed",
      d: `M${COLUMN.flow.x + COLUMN.flow.width} ${middle(first)}H${first.x}`,
    });
  pipes.push(...down(line, "mixed"));
  const lastMount = vapor.at(-1);
  if (interlock && lastMount) {
    const link = `M${right(interlock)} ${middle(interlock)}H${COLUMN.vapor.x - 12}V${middle(lastMount)}H${COLUMN.vapor.x}`;
    pipes.push({ key: "interlock", carries: "link", d: link });
  }
  pipes.push(...layOxygenBranch(lanes, leakRow + 1, put, outlet));
  return { placed, pipes, outlet: line.at(-1) ?? { ...COLUMN.vapor, y: rowY(leakRow), height: HEIGHT } };
}

/** What the oxygen line feeds beside the flow controls: alarm, flush; the flush goes straight to the common gas outlet. */
function layOxygenBranch(
  lanes: Lanes,
  outletRow: number,
  put: (id: string, column: ColumnName, row: number) => Placed | null,
  outlet: Placed | null,
): Pipe[] {
  const pipes: Pipe[] = [];
  put("hoses", "intermediate", lanes.rows);
  const branches = [put("supply-failure", "intermediate", lanes.rows + 1), put("flush", "intermediate", outletRow)];
  for (const box of branches) {
    if (!box || lanes.oxygenY === null) continue;
    const y = middle(box) - 10;
    pipes.push({ key: box.node.id, carries: "oxygen", d: `M${BRANCH_X} ${lanes.oxygenY}V${y}H${right(box)}` });
  }
  const flush = branches[1];
  if (flush && outlet) {
    pipes.push({ key: "flush-out", carries: "oxygen", d: `M${right(flush)} ${middle(flush) + 14}H${outlet.x}` });
  }
  return pipes;
}
