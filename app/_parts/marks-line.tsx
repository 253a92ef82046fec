import type { BoardRow } from "@/lib/schemas/board";
import { LocalTime } from "./local-time";
import { PersonName } from "./person-name";

/** The two marks of a checked workstation, each with its name and time. */
export function MarksLine({ marks, zone }: { marks: BoardRow["marks"]; zone: string }) {
  const { equipment, provider } = marks;
  if (!equipment && !provider) return null;
  return (
    <>
      {equipment ? (
        <>
          Equipment <LocalTime at={equipment.at} zone={zone} /> <PersonName name={equipment.name} />
        </>
      ) : null}
      {equipment && provider ? " · " : null}
      {provider ? (
        <>
          provider <LocalTime at={provider.at} zone={zone} /> <PersonName name={provider.name} />
        </>
      ) : null}
    </>
  );
}
