import { dateText, dayText } from "@/app/_parts/format";
import { DefinitionList } from "@/app/_ui/definition-list";
import { Panel } from "@/app/_ui/panel";
import { AGENT_NAMES, GAS_NAMES } from "@/lib/domain/wording";
import type { RoomView } from "@/lib/schemas/room";
import { dateIn, instantOf } from "@/lib/units/time";

/** What is fitted, by the number on its label, and when service is due. */
export function Fitted({ view }: { view: RoomView }) {
  const { fitted, service, row, facility } = view;
  if (!fitted || !row.workstation) return null;
  const since = (from: string) => dayText(dateIn(facility.timeZone, instantOf(from)));
  return (
    <Panel title="Fitted, and service" aside={`workstation ${row.workstation.tag}`}>
      <DefinitionList
        entries={[
          ...fitted.cylinders.map(({ position, gas, serial, size, from, expiry }) => ({
            term: `Yoke ${position}`,
            value: `${nameIn(GAS_NAMES, gas)} ${serial} (${size}), since ${since(from)}${dated("label expires", expiry)}`,
          })),
          ...fitted.vaporizers.map(({ mount, agent, tag, calibrationDue }) => ({
            term: `Mount ${mount}`,
            value: `${nameIn(AGENT_NAMES, agent)} ${tag}${dated("calibration due", calibrationDue)}`,
          })),
          ...fitted.absorbent.map(({ position, product, tag, from }) => ({
            term: `Absorbent, ${position}`,
            value: `${product} ${tag}, since ${since(from)}`,
          })),
          {
            term: "Oxygen sensor",
            value: fitted.oxygenSensor
              ? `${fitted.oxygenSensor.tag}, ${fitted.oxygenSensor.kind}, since ${since(fitted.oxygenSensor.from)}`
              : null,
          },
          ...service.map(({ plan, due, from, to }) => ({
            term: upperFirst(plan),
            value: `due ${dateText(due)}, window ${dateText(from)} to ${dateText(to)}`,
          })),
        ]}
      />
    </Panel>
  );
}

const dated = (what: string, date: string | null): string => (date ? `, ${what} ${dateText(date)}` : "");
const nameIn = (names: Readonly<Record<string, string>>, word: string): string => names[word] ?? word;
const upperFirst = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
