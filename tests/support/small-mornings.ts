import { dice } from "@/lib/domain/dice";
import type { Severity } from "@/lib/domain/judgement";
import type { PlanPerson, PlanTask } from "@/lib/domain/plan/model";
import type { Role } from "@/lib/domain/vocabulary";
import { type Instant, instantOf, later, MINUTE } from "@/lib/units/time";

export const MORNING: Instant = instantOf("2026-03-04T11:30:00Z");

/** A random morning, the same for the same number: rooms along a walk with their first cases, tasks in them, people with their roles. */
export function randomMorning(
  seed: number,
  sizes: { readonly tasks: number; readonly people: number; readonly rooms: number },
) {
  const chance = dice(seed);
  const rooms = Array.from({ length: sizes.rooms }, (_, place) => ({
    id: `room-${place}`,
    name: `OR ${place + 1}`,
    walkingOrder: place,
    readyBy: later(MORNING, chance.between(10, 15 + sizes.tasks * 5) * MINUTE),
    setUpMinutes: chance.pick([0, 10, 15, 30, 60]),
  }));
  const roles: readonly (readonly Role[])[] = [["technician"], ["technician"], ["technician", "biomedical-engineer"]];
  const people = Array.from(
    { length: sizes.people },
    (_, place): PlanPerson => ({
      id: `person-${place}`,
      name: `Person ${place + 1}`,
      roles: place === 0 ? ["technician", "biomedical-engineer"] : chance.pick(roles),
      from: later(MORNING, place === 2 ? 15 * MINUTE : 0),
      until: later(MORNING, 600 * MINUTE),
      walkingOrder: chance.between(0, sizes.rooms - 1),
    }),
  );
  const severities: readonly Severity[] = ["stops", "owed", "owed", "owed", "limits", "due"];
  const tasks = Array.from({ length: sizes.tasks }, (_, place): PlanTask => {
    const room = chance.pick(rooms);
    return {
      key: `task-${String(place).padStart(2, "0")}`,
      roomId: room.id,
      roomName: room.name,
      walkingOrder: room.walkingOrder,
      minutes: chance.pick([3, 5, 6, 8, 10, 15, 20]),
      severity: chance.pick(severities),
      mayDo: chance.pick<readonly Role[]>([["technician"], ["technician"], ["technician"], ["biomedical-engineer"]]),
      readyBy: room.readyBy,
      setUpMinutes: room.setUpMinutes,
      begun: null,
      lacksParts: false,
    };
  });
  return { tasks, people, now: MORNING };
}
