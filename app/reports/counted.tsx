import { Said } from "@/app/_parts/said.client";
import { DefinitionList } from "@/app/_ui/definition-list";
import { Panel } from "@/app/_ui/panel";

/** What the figures mean, on the same page and on the same paper: a percentage without its definition proves nothing. */
export function Counted() {
  return (
    <Panel title="What is counted">
      <DefinitionList
        entries={[
          {
            term: "Due",
            value: <Said>A room on a day with a list, or on which a case was begun, unless the room was closed.</Said>,
          },
          { term: "Done in time", value: "The equipment check of that day was signed before the first case." },
          { term: "Late", value: "It was signed after the first case." },
          {
            term: "Missed",
            value: "It was not signed, and the first case has come or the day is over. Signed later, it becomes late.",
          },
          {
            term: "Not counted",
            value: (
              <Said>
                Closed room-days; days without a list; and today until the first case has come or the check is signed.
              </Said>
            ),
          },
          {
            term: "A day",
            value: "The check day. It turns in the night at the hour the rules name, not at midnight.",
          },
          { term: "Percent", value: "Done in time, of what was due. Nothing due is n/a: neither 0 nor 100." },
        ]}
      />
    </Panel>
  );
}
