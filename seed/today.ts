import { claimTask } from "@/lib/commands/claim-task";
import { confirmCheck } from "@/lib/commands/confirm-check";
import { holdWorkstation } from "@/lib/commands/hold";
import { closeRoom, startCase } from "@/lib/commands/occupancy";
import type { Holder } from "@/lib/storage/evidence";
import { dateIn, type Instant, instantAt, later, localTime, MINUTE } from "@/lib/units/time";
import { Agenda, type Doing } from "./agenda";
import { exampleLines, listFile } from "./day-list";
import { enterDuty, QUILLHAVEN_DUTY, SALTMERE_DUTY } from "./duty";
import { chanceFrom } from "./random";
import { checkRoom, checkSpares, mendRoom, type Round } from "./rounds";
import { tidyUp } from "./tidy";
import type { Story } from "./working-day";

/** How a room's check comes out, when it does not simply pass. */
type Turn = "reserve low" | "one cylinder low, swapped" | "leaks, being looked at" | "held" | "vaporizer low";

/** One technician's way this morning. The rooms at its end are still to check when the charge provider comes in. */
interface Way {
  readonly technician: string;
  readonly from: string;
  readonly rooms: readonly (readonly [room: string, turn?: Turn])[];
}

export interface Script {
  readonly ways: readonly Way[];
  /** Rooms a provider has looked at before the charge provider asks, and who. */
  readonly confirmed: Readonly<Record<string, string>>;
  /** A case from the night, begun on yesterday's check. */
  readonly night: { readonly room: string; readonly provider: string; readonly at: string } | null;
  readonly duty: typeof QUILLHAVEN_DUTY;
  /** Who looks at the spares in the store before the rooms, so that one can be swapped in. */
  readonly spares: { readonly technician: string; readonly from: string };
  /** A workstation past its service window. */
  readonly late: { readonly tag: string; readonly plan: string } | null;
}

export const QUILLHAVEN_MORNING: Script = {
  ways: [
    {
      technician: "c.jennings",
      from: "05:27",
      rooms: [["OR 1"], ["OR 2"], ["OR 3", "reserve low"], ["OR 4"], ["OR 5"], ["OR 10"]],
    },
    {
      technician: "n.halabi",
      from: "05:31",
      rooms: [["LD 2", "held"], ["HV 1"], ["HV 2", "leaks, being looked at"], ["HV 3"], ["HV 4"]],
    },
    {
      technician: "p.lindqvist",
      from: "05:24",
      rooms: [["OR 6", "vaporizer low"], ["OR 8"], ["OR 7", "one cylinder low, swapped"], ["OR 9"], ["OR 11"]],
    },
    { technician: "s.tupou", from: "05:34", rooms: [["CATH 1"], ["IR 1"], ["MRI"], ["ENDO 1"], ["ENDO 2"]] },
  ],
  confirmed: {
    "OR 1": "j.whitlow",
    "OR 2": "e.haugland",
    "HV 1": "t.vrabel",
    "OR 8": "g.adeyemi",
    "IR 1": "r.santosh",
  },
  night: { room: "LD 1", provider: "k.bellweather", at: "04:32" },
  duty: QUILLHAVEN_DUTY,
  spares: { technician: "p.lindqvist", from: "05:12" },
  late: { tag: "AW-24", plan: "half-yearly inspection" },
};

export const SALTMERE_MORNING: Script = {
  ways: [{ technician: "c.brae", from: "05:45", rooms: [["Theatre 1"], ["Theatre 2"], ["Theatre 3"]] }],
  confirmed: { "Theatre 1": "m.dunmore" },
  night: null,
  duty: SALTMERE_DUTY,
  spares: { technician: "c.brae", from: "05:35" },
  late: null,
};

interface Morning extends Story {
  readonly script: Script;
  readonly agenda: Agenda;
  readonly at: (time: string) => Instant;
  readonly rooms: ReadonlyMap<string, Holder>;
}

/** Today, as far as it has come: the list, the checks done so far, what they found, and the first providers' marks. */
export async function morningSoFar(story: Story, script: Script, now: Instant): Promise<void> {
  const { department } = story;
  const date = dateIn(department.timeZone, now);
  const at = (time: string) => instantAt(department.timeZone, date, localTime(time));
  const night = new Agenda();
  night.add(at("03:30"), tidyUp(story, at("03:30")));
  await night.run(now);
  const holders = await department.holders(now);
  const rooms = new Map(holders.flatMap((one) => (one.evidence.room ? [[one.evidence.room.name, one]] : [])));
  const morning: Morning = { ...story, script, at, rooms, agenda: new Agenda() };
  const { agenda } = morning;
  agenda.once(at("04:32"), () => nightCase(morning));
  agenda.once(at("05:02"), () => importList(morning));
  agenda.once(at("05:10"), () => closeOthers(morning));
  agenda.once(at("05:06"), () => enterDuty(department, story.charge, script.duty, date, at("05:06")));
  agenda.add(at(script.spares.from), lookAtSpares(morning));
  for (const way of script.ways) agenda.add(at(way.from), walk(morning, way));
  await agenda.run(now);
}

async function nightCase({ script, department, rooms, at }: Morning): Promise<void> {
  const { night } = script;
  const room = night && rooms.get(night.room);
  // Refused where yesterday's check was never made; then there was no case.
  if (room) await department.tries(night.provider, at(night.at), startCase, { roomId: room.id });
}

async function importList({ department, folder, manager, script, at }: Morning): Promise<void> {
  const list = listFile("today", exampleLines(folder));
  const { late } = script;
  const service = `workstation,plan,due,window from,window to\n${late?.tag},${late?.plan},today-20,today-34,today-6\n`;
  await department.import(manager, at("05:02"), late ? { list, service } : { list });
}

async function closeOthers({ department, folder, charge, rooms, at }: Morning): Promise<void> {
  const listed = new Set(exampleLines(folder).map(({ room }) => room));
  for (const [name, { id }] of rooms) {
    if (listed.has(name)) continue;
    await department.does(charge, at("05:10"), closeRoom, { roomId: id });
  }
}

async function* lookAtSpares({ department, condition, script, at }: Morning): Doing {
  const { technician, from } = script.spares;
  const who = department.usual(technician, "technician");
  yield* checkSpares({ department, condition, chance: chanceFrom("the spares this morning") }, who, at(from));
}

async function* walk(morning: Morning, { technician: named, from, rooms: way }: Way): Doing {
  const { department, condition, script, agenda, rooms, at } = morning;
  const technician = department.usual(named, "technician");
  const round: Round = { department, condition, chance: chanceFrom(`${technician} this morning`) };
  let now = at(from);
  for (const [name, turn] of way) {
    const room = rooms.get(name);
    if (!room?.workstationId) continue;
    const holder = await department.holder(room, now);
    settle(morning, holder, turn);
    const signed = yield* checkRoom(round, technician, holder, now, false);
    now = yield* afterwards(morning, round, technician, holder, turn, signed.at);
    const provider = script.confirmed[name];
    const seen = later(signed.at, 7 * MINUTE);
    const confirming = { checkId: signed.checkId, seenVersion: signed.version };
    if (provider) agenda.once(seen, () => department.tries(provider, seen, confirmCheck, confirming));
    now = later(now, MINUTE);
    yield now;
  }
}

/** Puts the equipment into the state that the check is to find. */
function settle({ condition }: Morning, { evidence, workstationId }: Holder, turn: Turn | undefined): void {
  const { cylinders = [], vaporizers = [] } = evidence.workstation?.fitted ?? {};
  const oxygen = cylinders.filter(({ gas }) => gas === "oxygen");
  const shares =
    turn === "reserve low" ? [640 / 1900, 470 / 1900] : [0.94, turn === "one cylinder low, swapped" ? 0.5 : 0.89];
  for (const [index, { serial }] of oxygen.entries()) condition.setPressure(serial, shares[index] ?? 0.9);
  for (const [index, { tag }] of vaporizers.entries())
    condition.setLevel(tag, turn === "vaporizer low" && index === 0 ? 0.3 : 0.85);
  if (turn === "leaks, being looked at" && workstationId) condition.breaks(workstationId, "breathing-leak");
}

async function* afterwards(
  { department }: Morning,
  round: Round,
  technician: string,
  holder: Holder,
  turn: Turn | undefined,
  signedAt: Instant,
): Doing<Instant> {
  const soon = later(signedAt, MINUTE);
  if (turn === "held" && holder.workstationId) {
    const reason = "Ventilator alarm sounded twice without a cause; waiting for biomedical engineering";
    await department.does(technician, soon, holdWorkstation, { workstationId: holder.workstationId, reason });
  }
  if (turn === "leaks, being looked at") {
    const leak = (await department.tasksOf(holder, soon)).find(
      ({ draft }) => draft.kind === "clear" && draft.severity === "stops",
    );
    if (leak) await department.does(technician, soon, claimTask, { key: leak.key });
  }
  // The swap itself is done; its gauge and its yoke are still to look at when the morning is shown.
  if (turn === "one cylinder low, swapped") return yield* mendRoom(round, technician, holder, soon, ["due"]);
  return signedAt;
}
