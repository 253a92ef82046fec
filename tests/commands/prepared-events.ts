import type { Actor } from "@/lib/auth/actor";
import { allowLimit } from "@/lib/commands/allow-limit";
import { endEvent } from "@/lib/commands/end-event";
import { importDepartment } from "@/lib/commands/import-department";
import { raiseEvent } from "@/lib/commands/raise-event";
import { requestVaporFree } from "@/lib/commands/request-vapor-free";
import type { CommandName } from "@/lib/domain/permission";
import { readEvents } from "@/lib/queries/events";
import { instant, later, MINUTE, timestampOf } from "@/lib/units/time";
import { readingOf, roomNamed, workstationIn } from "@/tests/support/room-work";
import type { SmallDepartment } from "@/tests/support/small-department";

interface Scene {
  readonly department: SmallDepartment;
  readonly helper: Actor;
  readonly actor: Actor;
}

type Make = (scene: Scene) => Promise<unknown>;

const nowOf = ({ department }: Scene) => instant(department.clock.now());

/** The zone of the wing, with nothing open in it that can be ended by a word. */
async function quietZone({ department, helper }: Scene): Promise<string> {
  const { open, zones } = await readEvents(helper, readingOf(department));
  for (const { id, drill } of open) {
    if (drill) await department.must(endEvent, { eventId: id, reason: "The drill is over." }, helper);
  }
  return zones.find(({ name }) => name.startsWith("North"))?.id ?? "";
}

const drill = async (scene: Scene) => ({ kind: "power", zoneId: await quietZone(scene), drill: true }) as const;

async function openDrill(scene: Scene): Promise<{ eventId: string; reason: string }> {
  const { eventId } = await scene.department.must(raiseEvent, await drill(scene), scene.helper);
  return { eventId, reason: "Everybody knew the card." };
}

/** Air was off and is back: the rooms behind the valve have to prove it. */
async function airBack(scene: Scene) {
  const { department, helper } = scene;
  const zoneId = await quietZone(scene);
  const raised = { kind: "pipeline-restored", zoneId, gas: "air", drill: false } as const;
  const { eventId } = await department.must(raiseEvent, raised, helper);
  const names = ["OR 1", "OR 2", "OR 3"];
  const rooms = await Promise.all(names.map(async (name) => (await roomNamed(department, name)).roomId));
  const looks = { pressure: { value: 52, unit: "psi" }, identity: true } as const;
  return { eventId, rooms: rooms.map((roomId) => ({ roomId, ...looks })) };
}

async function asked(scene: Scene) {
  const { roomId } = await roomNamed(scene.department, "OR 3");
  return { roomId, neededAt: timestampOf(later(nowOf(scene), 30 * 60 * MINUTE)) };
}

/** A spare that never had a vaporizer on it. */
async function bareWorkstation({ department, helper }: Scene): Promise<string> {
  const files = { workstations: "tag,serial,model,room,store\nVF-01,VF-01-9,Ostwick A3,,Cylinder store" };
  await department.must(importDepartment, { files }, helper);
  return department.database.inScope(
    { organisationId: helper.organisationId, facilityId: helper.facility.id },
    async (tx) => (await tx.workstation.findFirst({ where: { tag: "VF-01" } }))?.id ?? "",
  );
}

export const PREPARE_EVENTS = (limitToAllow: Make) =>
  ({
    "raise-event": drill,
    "end-event": openDrill,
    "return-to-service": airBack,
    "revoke-allowance": async (scene) => {
      const input = (await limitToAllow(scene)) as Parameters<typeof allowLimit.run>[1];
      await scene.department.must(allowLimit, input, scene.helper);
      return {
        workstationId: await workstationIn(scene.department, "OR 3"),
        rule: input.rule,
        reason: "It leaks now.",
      };
    },
    "request-vapor-free": asked,
    "withdraw-vapor-free": async (scene) => {
      const input = await asked(scene);
      const { requestId } = await scene.department.must(requestVaporFree, input, scene.helper);
      return { requestId, roomId: input.roomId };
    },
    "prepare-vapor-free": async (scene) => ({
      workstationId: await bareWorkstation(scene),
      method: "flush",
      startedAt: timestampOf(later(nowOf(scene), -25 * MINUTE)),
      endedAt: timestampOf(nowOf(scene)),
    }),
  }) satisfies Partial<Record<CommandName, Make>>;
