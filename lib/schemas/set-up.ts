import { z } from "zod";
import { date, id, pressureUnit, role, scheme, timestamp, words } from "@/lib/schemas/common";
import { siteWords } from "@/lib/schemas/site-words";

export const userId = z
  .string()
  .trim()
  .toLowerCase()
  .regex(
    /^[a-z][a-z0-9._-]{1,39}$/,
    "must be 2 to 40 letters, digits, dots, hyphens or underscores, and begin with a letter",
  );
export const password = z.string().min(12, "must be at least 12 characters").max(200, "must be at most 200 characters");

export const timeZone = z.string().refine((zone) => {
  try {
    new Intl.DateTimeFormat("en", { timeZone: zone });
    return zone.includes("/");
  } catch {
    return false;
  }
}, "must be an IANA time zone such as America/Chicago or Europe/London");

export const foundRequest = z.strictObject({
  organisation: words(120),
  facility: words(120),
  timeZone,
  scheme,
  pressureUnit,
  name: words(120),
  userId,
  password,
});

export const addFacilityRequest = z.strictObject({ name: words(120), timeZone, scheme, pressureUnit });
export const addFacilityReply = z.strictObject({ facilityId: id });

export const addPersonRequest = z.strictObject({
  userId,
  name: words(120),
  roles: z.array(role).min(1, "must hold at least one role"),
  password,
});
export const addPersonReply = z.strictObject({ personId: id });
export const changeRolesRequest = z.strictObject({ personId: id, roles: z.array(role), active: z.boolean() });
export const changeRolesReply = z.strictObject({ personId: id });
export const givePasswordRequest = z.strictObject({ personId: id, password });
export const givePasswordReply = z.strictObject({ personId: id });
export const setPasswordRequest = z.strictObject({ current: z.string().max(200), next: password });
export const setPasswordReply = z.strictObject({ changedAt: timestamp });

export const peopleView = z.strictObject({
  people: z.array(
    z.strictObject({ id, userId: z.string(), name: z.string(), active: z.boolean(), roles: z.array(role) }),
  ),
});
export type PeopleView = z.infer<typeof peopleView>;

/** The files of a department, each a CSV text; any of them may be left out. */
export const IMPORT_FILES = [
  "suites",
  "zones",
  "stores",
  "rooms",
  "models",
  "workstations",
  "cylinders",
  "vaporizers",
  "absorbent",
  "sensors",
  "service",
  "people",
  "list",
] as const;
export type ImportFile = (typeof IMPORT_FILES)[number];

export const importRequest = z.strictObject({
  files: z.partialRecord(z.enum(IMPORT_FILES), z.string().max(5_000_000, "must be at most 5 MB")),
});

/** One thing wrong in one place of a file, and what would be right. */
export const importProblem = z.strictObject({
  file: z.enum(IMPORT_FILES),
  line: z.int(),
  column: z.string().nullable(),
  value: z.string().nullable(),
  message: z.string(),
});
export type ImportProblem = z.infer<typeof importProblem>;

export const importCounts = z.strictObject({
  file: z.enum(IMPORT_FILES),
  rows: z.int(),
  added: z.int(),
  changed: z.int(),
  same: z.int(),
});
export const importPreview = z.strictObject({
  ok: z.boolean(),
  problems: z.array(importProblem),
  counts: z.array(importCounts),
  date: date.nullable(),
});
export type ImportPreview = z.infer<typeof importPreview>;
export const importReply = z.strictObject({ counts: z.array(importCounts) });

export const sessionView = z.strictObject({
  person: z.strictObject({ id, name: z.string(), userId: z.string() }),
  roles: z.array(role),
  facility: z.strictObject({ id, name: z.string(), timeZone: z.string(), scheme, pressureUnit }),
  /** The words this facility says things in. */
  words: siteWords,
  facilities: z.array(z.strictObject({ id, name: z.string() })),
  mayDo: z.array(z.string()),
  at: timestamp,
  demo: z.boolean(),
});
export type SessionView = z.infer<typeof sessionView>;

export const changeFacilityRequest = z.strictObject({ facilityId: id });
