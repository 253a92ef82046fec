import type { WorkstationEvidence } from "@/lib/domain/evidence";
import type { RoomView } from "@/lib/schemas/room";

/** What is fitted to a workstation, with the numbers and dates on the labels. */
export function fittedOf({ fitted, model }: WorkstationEvidence): RoomView["fitted"] {
  return {
    cylinders: fitted.cylinders.map(({ id, serial, position, gas, size, from, expiry, retestDue }) => ({
      id,
      serial,
      position,
      gas,
      size,
      from,
      expiry,
      retestDue,
    })),
    yokes: model.yokes.map(({ position, gas }) => ({ position, gas })),
    vaporizers: fitted.vaporizers.map(({ id, tag, mount, agent, from, calibration }) => ({
      id,
      tag,
      mount,
      agent,
      from,
      calibrationDue: calibration?.due ?? null,
    })),
    mounts: [...model.mounts],
    absorbent: fitted.absorbent.map(({ id, tag, position, product, from }) => ({
      id,
      tag,
      position,
      product: product.name,
      from,
    })),
    oxygenSensor: fitted.oxygenSensor && { ...fitted.oxygenSensor },
  };
}
