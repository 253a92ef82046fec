import { keyOf } from "@/lib/domain/department-merge";
import type { DeviceKnown } from "@/lib/domain/device/model";
import { done, refused } from "@/lib/domain/outcome";

/** A code of this many different characters was drawn, and not made up by hand. */
const FEWEST_DIFFERENT = 10;

/** A new device: its name is free, and its code was drawn at random. */
export function decideRegister(devices: readonly DeviceKnown[], name: string, code: string) {
  const other = devices.find((device) => !device.revoked && keyOf(device.name) === keyOf(name));
  if (other)
    return refused("taken", `There is a wall device named ${other.name} already. Choose another name.`, "name");
  if (new Set(code).size < FEWEST_DIFFERENT)
    return refused(
      "invalid",
      `The code must be drawn at random; it has fewer than ${FEWEST_DIFFERENT} different characters.`,
      "code",
    );
  return done(null);
}

export function decideRevoke(devices: readonly DeviceKnown[], deviceId: string) {
  const device = devices.find(({ id }) => id === deviceId);
  if (!device) return refused("not-found", "There is no wall device with this id in your facility.", "deviceId");
  if (device.revoked) return refused("already-done", `${device.name} is revoked already.`, "deviceId");
  return done(device);
}
