import { addFacility, found } from "@/lib/commands/found";
import { setPin } from "@/lib/commands/pin";
import { type Database, openDatabase, type Scope } from "@/lib/storage/client";
import { facilityScopes } from "@/lib/storage/sessions";
import type { Instant } from "@/lib/units/time";
import { Condition } from "./condition";
import { DEMO_PASSWORD, DEMO_PEOPLE, DEMO_PIN, FOUNDER, ORGANISATION, QUILLHAVEN, SALTMERE } from "./demo-people";
import { Department, exampleFiles, StepClock } from "./department";
import type { Story } from "./working-day";

export interface Connections {
  readonly databaseUrl: string;
  readonly ownerUrl: string;
}

/** Works on the hospital's database and closes it, whatever happens. */
export async function withDatabase<Value>(url: string, work: (database: Database) => Promise<Value>): Promise<Value> {
  const database = openDatabase(url);
  try {
    return await work(database);
  } finally {
    await database.close();
  }
}

/** Plans made without statistics are bad ones, and a hospital filled at once has none yet. */
export const gatherStatistics = ({ ownerUrl }: Connections): Promise<number> =>
  withDatabase(ownerUrl, (owner) => owner.withoutScope((tx) => tx.$executeRaw`ANALYZE`));

/** The organisation, its first administrator, and both facilities with what is in them. */
export async function foundHospital({ databaseUrl, ownerUrl }: Connections, at: Instant): Promise<void> {
  const clock = new StepClock(at);
  const { folder: quillhaven, name: facility, ...first } = QUILLHAVEN;
  const { folder: saltmere, ...second } = SALTMERE;
  const { userId, name } = FOUNDER;
  const ids = await withDatabase(ownerUrl, (owner) =>
    found(owner, clock, { organisation: ORGANISATION, facility, ...first, userId, name, password: DEMO_PASSWORD }),
  );
  await withDatabase(databaseUrl, async (database) => {
    const department = await Department.open(database, clock, ids);
    await department.import(userId, at, exampleFiles(quillhaven));
    const added = await addFacility({ database, clock }, second, department.actor(userId));
    if (!added.ok) throw new Error(added.message);
    const other = await Department.open(database, clock, { ...ids, facilityId: added.value.facilityId });
    await other.import(userId, at, exampleFiles(saltmere));
    for (const scope of [ids, { ...ids, facilityId: added.value.facilityId }])
      await choosePins(await Department.open(database, clock, scope), at);
  });
}

/** The people to try it as have a PIN, so that a signature takes six taps and not a password. */
async function choosePins(department: Department, at: Instant): Promise<void> {
  const input = { pin: DEMO_PIN, current: { kind: "password", value: DEMO_PASSWORD } } as const;
  for (const { userId } of DEMO_PEOPLE.filter(({ facility }) => facility === department.name))
    await department.does(userId, at, setPin, input);
}

/** Both facilities as their people find them at a moment; each has its own clock, as each has its own history. */
export async function storiesOf(database: Database, at: Instant): Promise<readonly [Story, Story]> {
  const scopes = await facilityScopes(database);
  const open = async (scope: Scope) => Department.open(database, new StepClock(at), scope);
  const departments = await Promise.all(scopes.map(open));
  const storyOf = (place: typeof QUILLHAVEN | typeof SALTMERE, manager: string, charge: string): Story => {
    const department = departments.find(({ name }) => name === place.name);
    if (!department) throw new Error(`${place.name} has not been founded here`);
    return {
      department,
      condition: new Condition(),
      folder: place.folder,
      manager: department.usual(manager, "manager"),
      charge: department.usual(charge, "charge-provider"),
    };
  };
  return [storyOf(QUILLHAVEN, "h.peel", "m.ferro"), storyOf(SALTMERE, "o.kerrigan", "f.ainslie")];
}
