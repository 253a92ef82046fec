import { command } from "@/lib/commands/command";
import { decideRegister, decideRevoke } from "@/lib/domain/device/decide";
import { refused } from "@/lib/domain/outcome";
import {
  registerDeviceReply,
  registerDeviceRequest,
  revokeDeviceReply,
  revokeDeviceRequest,
} from "@/lib/schemas/devices";
import { revokeDevice as endDevice, insertDevice, wallDevices } from "@/lib/storage/devices";

/** Neither the answer nor the record holds the code: an answer is kept so that it can be repeated, and the record is for reading. */
export const registerDevice = command({
  name: "register-device",
  summary: "Register a screen on a wall: it reads the board with its code, and nothing else.",
  schema: registerDeviceRequest,
  reply: registerDeviceReply,
  locks: () => ({}),
  load: (tx, _input, { begun }) => wallDevices(tx, begun.scope.facilityId),
  decide: (devices, { name, code }) => decideRegister(devices, name, code),
  apply: async (tx, _decided, { name, code }, { begun, actor, now, newId, digest }) => {
    const deviceId = newId();
    const device = { id: deviceId, name, codeHash: digest(code), by: actor.personId, at: now };
    if (!(await insertDevice(tx, begun.scope.facilityId, device)))
      return refused(
        "taken",
        `The name ${name} or this code was taken in the meantime. Choose another name, or draw another code.`,
        "name",
      );
    return { reply: { deviceId }, note: { text: `Registered the wall device ${name}`, data: { deviceId, name } } };
  },
});

export const revokeDevice = command({
  name: "revoke-device",
  summary: "Revoke a wall device: it shows nothing from now on.",
  schema: revokeDeviceRequest,
  reply: revokeDeviceReply,
  locks: () => ({}),
  load: (tx, _input, { begun }) => wallDevices(tx, begun.scope.facilityId),
  decide: (devices, { deviceId }) => decideRevoke(devices, deviceId),
  apply: async (tx, device, { deviceId }, { begun, actor, now }) => {
    if (!(await endDevice(tx, begun.scope.facilityId, deviceId, actor.personId, now)))
      return refused("already-done", `${device.name} was revoked in the meantime.`, "deviceId");
    return { reply: { deviceId }, note: { text: `Revoked the wall device ${device.name}`, data: { deviceId } } };
  },
});
