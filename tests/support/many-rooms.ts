import type { Actor } from "@/lib/auth/actor";
import { holdWorkstation } from "@/lib/commands/hold";
import { importDepartment } from "@/lib/commands/import-department";
import { closeRoom, startCase } from "@/lib/commands/occupancy";
import { checkWhole, roomNamed, workstationIn } from "@/tests/support/room-work";
import type { SmallDepartment } from "@/tests/support/small-department";

/** An invented department's suites in walking order: what its rooms are called, and its share of them in twelfths. */
const SUITES = [
  { name: "Main theatre floor", rooms: "OR", share: 6 },
  { name: "Heart and vascular", rooms: "HV", share: 2 },
  { name: "Day surgery", rooms: "DS", share: 3 },
  { name: "Procedure rooms", rooms: "Procedure", share: 1 },
] as const;

/** The names of that many rooms, suite by suite as they are walked. */
export function roomNames(count: number): string[] {
  return SUITES.flatMap(({ rooms, share }) =>
    Array.from({ length: (count * share) / 12 }, (_, index) => `${rooms} ${index + 1}`),
  );
}

/** Adds that many rooms (a multiple of twelve) with a workstation in each, in the place of the small department's own. */
export async function addRooms(department: SmallDepartment, count: number): Promise<string[]> {
  const names = roomNames(count);
  const suiteOf = (room: string) => SUITES.find(({ rooms }) => room.startsWith(`${rooms} `))?.name ?? "";
  const files = {
    suites: ["name,walking order", ...SUITES.map(({ name }, index) => `${name},${index + 1}`)],
    rooms: [
      "name,suite,zone,piped gases,vacuum,waste gas,walking order",
      ...names.map((name, index) => `${name},${suiteOf(name)},,oxygen|air,yes,active,${index + 1}`),
    ],
    ...equipment(names),
    list: [
      "date,room,first case,ends,needs,set-up minutes",
      ...names.map((name) => `today,${name},07:15,15:30,mechanical ventilation,15`),
    ],
  };
  await department.must(
    importDepartment,
    { files: Object.fromEntries(Object.entries(files).map(([file, lines]) => [file, lines.join("\n")])) },
    department.admin,
  );
  return names;
}

/** A workstation for each room but the first, which has one, with what it needs to be ready. */
function equipment(names: readonly string[]) {
  const each = (line: (name: string, tag: string, number: number) => string) =>
    names.slice(1).map((name, index) => line(name, `WS-${index + 2}`, 70_000 + index));
  return {
    workstations: [
      "tag,serial,model,room,store",
      ...each((name, tag, number) => `${tag},MB40-${number},Marrowby 40,${name},`),
    ],
    cylinders: [
      "serial,gas,scheme,size,water capacity L,rated contents L,rated pressure,rated pressure unit,expiry,retest due,workstation,yoke,store,contents",
      ...each((_, tag, number) => `OX-${number},oxygen,US,E,4.8,660,1900,psi,,,${tag},1,,in use`),
    ],
    vaporizers: [
      "tag,agent,filler,workstation,mount,store,calibration due,window to",
      ...each((_, tag, number) => `VP-${number},sevoflurane,keyed,${tag},1,,,`),
    ],
    absorbent: [
      "tag,product,indicator,reverts,strong base,litres per 100 g,mass g,workstation,canister,store",
      ...each((_, tag, number) => `AB-${number},Calmora violet,yes,yes,no,12,1000,${tag},1,`),
    ],
    sensors: ["tag,kind,workstation,store", ...each((_, tag, number) => `OS-${number},galvanic,${tag},`)],
  };
}

export const HELD_ROOM = "OR 3";

/** One room of each kind that a morning has: ready, in use, held (in words that name somebody), closed; the others are to check. */
export async function oneOfEach(department: SmallDepartment, technician: Actor, provider: Actor): Promise<void> {
  await checkWhole(department, "HV 1", technician);
  await checkWhole(department, "HV 2", technician);
  const inUse = await roomNamed(department, "HV 2");
  await department.must(startCase, { roomId: inUse.roomId }, provider);
  const workstationId = await workstationIn(department, HELD_ROOM);
  await department.must(holdWorkstation, { workstationId, reason: "Rosa Osei heard a hiss" }, technician);
  const closed = await roomNamed(department, "DS 1");
  await department.must(closeRoom, { roomId: closed.roomId }, department.admin);
}
