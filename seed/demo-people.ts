import type { Role } from "@/lib/domain/vocabulary";

/** Where the demonstration's mornings happen. */
export const DEMO_TIME_ZONE = "America/Chicago";
/** Everybody's first password, as the example departments have it. For trying out, and for nothing else. */
export const DEMO_PASSWORD = "morning-round";
/** Everybody's PIN, for signing and unlocking with a thumb. */
export const DEMO_PIN = "280619";

export const ORGANISATION = "Quillhaven Health";

export const QUILLHAVEN = {
  name: "Quillhaven Hospital",
  timeZone: DEMO_TIME_ZONE,
  scheme: "US",
  pressureUnit: "psi",
  folder: "us-quillhaven",
} as const;

/** In the same zone of the sun, so that both facilities have their morning at once. */
export const SALTMERE = {
  name: "Saltmere Infirmary",
  timeZone: "America/Chicago",
  scheme: "ISO",
  pressureUnit: "kPa",
  folder: "iso-saltmere",
} as const;

export interface DemoPerson {
  readonly userId: string;
  readonly name: string;
  readonly roles: readonly Role[];
  readonly facility: string;
}

/** Who founds it all, and so is in both facilities. */
export const FOUNDER: DemoPerson = {
  userId: "a.brandt",
  name: "Anneke Brandt",
  roles: ["administrator", "manager"],
  facility: QUILLHAVEN.name,
};

const at =
  (facility: string) =>
  (userId: string, name: string, ...roles: Role[]): DemoPerson => ({ userId, name, roles, facility });
const quillhaven = at(QUILLHAVEN.name);
const saltmere = at(SALTMERE.name);

/** The people worth trying the demonstration as: one of each trade, by the names in the example departments. */
export const DEMO_PEOPLE: readonly DemoPerson[] = [
  quillhaven("n.halabi", "Noor Halabi", "technician"),
  quillhaven("m.ferro", "Mateo Ferro", "charge-provider", "provider"),
  quillhaven("j.whitlow", "June Whitlow", "provider"),
  quillhaven("i.kranz", "Ilse Kranz", "biomedical-engineer"),
  quillhaven("m.silvan", "Marta Silvan", "supplies"),
  quillhaven("h.peel", "Howard Peel", "manager"),
  FOUNDER,
  saltmere("c.brae", "Callum Brae", "technician"),
  saltmere("f.ainslie", "Fergus Ainslie", "charge-provider", "provider"),
];
