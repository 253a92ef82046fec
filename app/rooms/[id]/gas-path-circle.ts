import {
  at,
  type Box,
  COLUMN,
  type ColumnName,
  centre,
  down,
  middle,
  type Placed,
  RISER_X,
  right,
} from "./gas-path-grid";
import type { PathNode } from "./gas-path-nodes";

/** The breathing circle as two columns joined at both ends, and scavenging under it. */
export function layCircle(outlet: Box, find: (id: string) => PathNode | undefined, nodes: readonly PathNode[]) {
  const column = (ids: readonly string[], name: ColumnName) =>
    ids.flatMap((id) => find(id) ?? []).map((node, row) => at(node, name, row));
  const inner = column(["valves", "oxygen-sensor", "absorbent", "ventilator"], "inner");
  const outer = column(["circuit", "breathing-leak", "apl", "flow-sensor"], "outer");
  const placed = [...inner, ...outer];
  const pipes = [...down(inner, "circle"), ...down(outer, "circle")];
  const [firstIn, firstOut, lastIn, lastOut] = [inner[0], outer[0], inner.at(-1), outer.at(-1)];
  if (firstIn) {
    const rise = `M${right(outlet)} ${middle(outlet)}H${RISER_X}V${middle(firstIn)}H${firstIn.x}`;
    pipes.push({ key: "riser", carries: "mixed", d: rise });
  }
  if (firstIn && firstOut)
    pipes.push({ key: "top", carries: "circle", d: `M${right(firstIn)} ${middle(firstIn)}H${firstOut.x}` });
  if (lastIn && lastOut) pipes.push({ key: "end", carries: "circle", d: joinEnds(lastIn, lastOut) });
  const scavenging = nodes.find(({ id }) => id === "scavenging");
  if (scavenging) {
    const row = Math.max(inner.length, outer.length);
    const box: Placed = {
      ...at(scavenging, "inner", row),
      width: COLUMN.outer.x + COLUMN.outer.width - COLUMN.inner.x,
    };
    placed.push(box);
    const from = lastIn ?? lastOut;
    if (from)
      pipes.push({ key: "scavenging", carries: "circle", d: `M${centre(from)} ${from.y + from.height}V${box.y}` });
  }
  return { placed, pipes };
}

function joinEnds(inner: Box, outer: Box): string {
  if (inner.y === outer.y) return `M${right(inner)} ${middle(inner)}H${outer.x}`;
  const [lower, upper] = inner.y > outer.y ? [inner, outer] : [outer, inner];
  const edge = lower === inner ? right(lower) : lower.x;
  return `M${edge} ${middle(lower)}H${centre(upper)}V${upper.y + upper.height}`;
}
