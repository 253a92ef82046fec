import { importDuty } from "@/lib/commands/duty";
import type { Role } from "@/lib/domain/vocabulary";
import { addDays, type Instant, type LocalDate } from "@/lib/units/time";
import type { Department } from "./department";

/** Somebody's stretch of duty; a night begins on the evening before. */
interface Shift {
  readonly userId: string;
  readonly role: Role;
  readonly from: string;
  readonly to: string;
  readonly sinceYesterday?: true;
}

const shift = (userId: string, role: Role, from: string, to: string): Shift => ({ userId, role, from, to });
const night = (userId: string, role: Role, from: string, to: string): Shift => ({
  ...shift(userId, role, from, to),
  sinceYesterday: true,
});

export const QUILLHAVEN_DUTY: readonly Shift[] = [
  night("k.bellweather", "provider", "19:00", "07:00"),
  night("d.achebe", "biomedical-engineer", "16:00", "07:00"),
  shift("k.bellweather", "provider", "19:00", "07:00"),
  shift("d.achebe", "biomedical-engineer", "16:00", "07:00"),
  shift("m.ferro", "charge-provider", "05:45", "15:00"),
  shift("l.okafor", "charge-provider", "14:30", "23:00"),
  shift("j.whitlow", "provider", "06:30", "17:00"),
  shift("e.haugland", "provider", "06:30", "17:00"),
  shift("t.vrabel", "provider", "06:15", "15:30"),
  shift("g.adeyemi", "provider", "06:30", "17:00"),
  shift("r.santosh", "provider", "06:30", "16:00"),
  shift("n.halabi", "technician", "05:15", "13:45"),
  shift("p.lindqvist", "technician", "05:15", "13:45"),
  shift("c.jennings", "technician", "05:15", "17:30"),
  shift("s.tupou", "technician", "05:15", "09:00"),
  shift("s.tupou", "supplies", "09:00", "13:45"),
  shift("i.kranz", "biomedical-engineer", "07:00", "16:00"),
  shift("m.silvan", "supplies", "06:00", "14:30"),
  shift("h.peel", "manager", "07:30", "16:00"),
];

export const SALTMERE_DUTY: readonly Shift[] = [
  shift("c.brae", "technician", "05:30", "14:00"),
  shift("f.ainslie", "charge-provider", "06:00", "17:00"),
  shift("m.dunmore", "provider", "06:30", "17:00"),
  shift("i.thorne", "biomedical-engineer", "08:00", "16:00"),
  shift("o.kerrigan", "manager", "08:00", "16:30"),
];

/** The roster of one day as the charge provider imports it. Who has another role by now is left out. */
export async function enterDuty(
  department: Department,
  charge: string,
  shifts: readonly Shift[],
  date: LocalDate,
  at: Instant,
): Promise<void> {
  const csv = dutyFile(
    shifts.filter(({ userId, role }) => department.inRole(role).includes(userId)),
    date,
  );
  await department.does(charge, at, importDuty, { csv });
}

export function dutyFile(shifts: readonly Shift[], date: LocalDate): string {
  const rows = shifts.map(({ userId, role, from, to, sinceYesterday }) =>
    [sinceYesterday ? addDays(date, -1) : date, userId, role.replaceAll("-", " "), from, to].join(","),
  );
  return `${["date,user id,role,from,to", ...rows].join("\n")}\n`;
}
