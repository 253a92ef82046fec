import { clockText, longDayText } from "@/app/_parts/format";
import { DefinitionList } from "@/app/_ui/definition-list";
import { Panel } from "@/app/_ui/panel";
import { CELL_LOOK, type Cell } from "./cell-look";

/** The record behind one cell: who checked, who confirmed, what failed, what was swapped. */
export function CellDetail({ room, cell, zone }: { room: string; cell: Cell; zone: string }) {
  const by = (at: string | null, name: string | null) =>
    at ? `${clockText(at, zone)}, ${name ?? "name not recorded"}` : "not given";
  return (
    <div id="cell">
      <Panel title={`${room}, ${longDayText(cell.date)}: ${CELL_LOOK[cell.state].word}`}>
        <DefinitionList
          entries={[
            { term: "Equipment checked", value: by(cell.equipmentAt, cell.equipmentBy) },
            { term: "Provider’s check", value: by(cell.providerAt, cell.providerBy) },
            { term: "First case", value: cell.firstCase ? clockText(cell.firstCase, zone) : "none listed" },
            { term: "Failing", value: cell.failures.join("; ") || "nothing" },
            { term: "Swapped", value: cell.swaps.join("; ") || "nothing" },
          ]}
        />
      </Panel>
    </div>
  );
}
