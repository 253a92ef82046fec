import type { Actor } from "@/lib/auth/actor";
import { declineRules, proposeRules } from "@/lib/commands/propose-rules";
import { registerDevice } from "@/lib/commands/register-device";
import { setRoom } from "@/lib/commands/set-room";
import { setWorkstation } from "@/lib/commands/set-workstation";
import type { CommandName } from "@/lib/domain/permission";
import { readRules } from "@/lib/queries/rules";
import { readPlaces, readSite } from "@/lib/queries/set-up";
import { readingOf } from "@/tests/support/room-work";
import type { SmallDepartment } from "@/tests/support/small-department";

interface Scene {
  readonly department: SmallDepartment;
  readonly helper: Actor;
  readonly actor: Actor;
}

let counted = 0;
const fresh = (): number => {
  counted += 1;
  return counted;
};

const ALPHABET = "abcdefghjkmnpqrstuvwxyz23456789";
/** A code as a screen draws it, another one each time. */
export const drawnCode = (): string =>
  Array.from(crypto.getRandomValues(new Uint8Array(32)), (byte) => ALPHABET[byte % ALPHABET.length]).join("");

/** A room that nothing stands in. */
export async function newRoom({ department, helper }: Omit<Scene, "actor">, name = `Side room ${fresh()}`) {
  const { suites } = await readPlaces(helper, readingOf(department));
  const suiteId = suites[0]?.id ?? "";
  return {
    roomId: null,
    name,
    suiteId,
    zoneId: null,
    piped: ["oxygen" as const],
    vacuum: true,
    wasteGas: "active" as const,
    walkingOrder: 900 + fresh(),
  };
}

async function newWorkstation({ department, helper }: Scene) {
  const { models, stores } = await readPlaces(helper, readingOf(department));
  const tag = `SW-${fresh()}`;
  return {
    workstationId: null,
    tag,
    serial: `S${tag}`,
    modelId: models[0]?.id ?? "",
    place: { storeId: stores[0]?.id ?? "" },
  };
}

export const MODEL = {
  maker: "Harrowgate Works",
  drive: "piston" as const,
  driveGas: "none" as const,
  leakTest: "self-test" as const,
  oxygenSensor: "paramagnetic" as const,
  mounts: ["left"],
  yokes: [{ position: "1", gas: "oxygen" as const }],
  selfTestCovers: [],
  outletSelector: false,
  vaporFreeMinutes: null,
};

/** A change that can be proposed: whatever is open is declined first, and each one says something new. */
async function newProposal({ department, helper }: Scene) {
  const { open } = await readRules(helper, readingOf(department));
  for (const { id } of open)
    await department.must(declineRules, { changeId: id, reason: "Another one comes first." }, helper);
  return {
    rule: "label-missing",
    change: { on: true, values: {}, citation: `Our policy ${fresh()}` },
    reason: "Labels are checked by supplies.",
  };
}

/** Proposed by somebody who approves nothing here. */
const proposed = async (scene: Scene) => {
  const change = await newProposal(scene);
  const { changeId } = await scene.department.must(proposeRules, change, scene.department.admin);
  return changeId;
};

type Make = (scene: Scene) => Promise<unknown>;

/** The inputs of the set-up's commands, each for a department as its templates make it. */
export const PREPARE_SET_UP = {
  "set-place": async () => ({ kind: "zone", placeId: null, name: `Zone ${fresh()}` }),
  "set-room": (scene) => newRoom(scene),
  "add-rooms": async (scene) => {
    const { roomId: _, name, ...room } = await newRoom(scene);
    return { ...room, names: [`${name} A`, `${name} B`] };
  },
  "retire-room": async (scene) => scene.department.must(setRoom, await newRoom(scene), scene.helper),
  "set-model": async () => ({ modelId: null, name: `Harrow ${fresh()}`, ...MODEL }),
  "set-workstation": newWorkstation,
  "retire-workstation": async (scene) => ({
    ...(await scene.department.must(setWorkstation, await newWorkstation(scene), scene.helper)),
    partsTo: null,
  }),
  "add-part": async ({ department, helper }) => {
    const { stores } = await readPlaces(helper, readingOf(department));
    const cells = { tag: `V-${fresh()}`, agent: "sevoflurane", filler: "keyed" };
    return { kind: "vaporizer", workstationId: null, storeId: stores[0]?.id, position: null, cells };
  },
  "set-weekly-template": async ({ department, helper }) => {
    const { rooms } = await readPlaces(helper, readingOf(department));
    const side = rooms.find(({ workstation }) => workstation === null) ?? rooms[0];
    return { roomIds: [side?.id], days: [{ weekday: 7, closed: true }] };
  },
  "set-list": async (scene) => {
    const { roomId } = await scene.department.must(setRoom, await newRoom(scene), scene.helper);
    return { roomId, list: { firstCase: "08:00", ends: "15:00", needs: [], setUpMinutes: 0 } };
  },
  "set-site": async ({ department, helper }) => {
    const { checks: _, ...site } = await readSite(helper, readingOf(department));
    return site;
  },
  "propose-rules": newProposal,
  "approve-rules": async (scene) => ({ changeId: await proposed(scene) }),
  "decline-rules": async (scene) => ({ changeId: await proposed(scene), reason: "It is right as it is." }),
  "register-device": async () => ({ name: `Corridor ${fresh()}`, code: drawnCode() }),
  "revoke-device": async ({ department, helper }) =>
    department.must(registerDevice, { name: `Corridor ${fresh()}`, code: drawnCode() }, helper),
} satisfies Partial<Record<CommandName, Make>>;
