import type { ProcedureItem } from "@/lib/domain/procedure/model";
import { procedureItem, yesNo } from "@/lib/domain/ready-made-procedures/item-builder";

/** Monitors, the oxygen sensor among them. */
export const MONITOR_ITEMS: readonly ProcedureItem[] = [
  procedureItem(
    "capnograph",
    {
      title: "Breathe into the sample line",
      how: "A wave appears and falls back to zero; alarm limits are set and heard.",
      why: "It shows at once whether the tube is in the airway and gas is moving.",
      whenItFails: "Bring a portable capnograph or another machine.",
    },
    yesNo("Wave and alarm", "Fails or absent"),
  ),
  procedureItem(
    "oximeter",
    {
      title: "Put the oximeter on your finger",
      how: "Pulse wave and number within ten seconds; the tone changes.",
      why: "It is the monitor of last resort for oxygen.",
      whenItFails: "Bring another probe or a portable oximeter.",
    },
    yesNo("Reads", "Fails or absent"),
  ),
  procedureItem(
    "ecg",
    {
      title: "Look for the ECG cable and its trace",
      how: "Cable whole, leads there, trace on the screen when touched, alarms on.",
      why: "Required in every anesthetic.",
      whenItFails: "Bring another cable or monitor.",
    },
    yesNo("There and works", "Fails or absent"),
  ),
  procedureItem(
    "blood-pressure",
    {
      title: "Run the blood-pressure cuff",
      how: "Inflates and deflates; cuffs of the sizes the list needs are there.",
      why: "Required in every anesthetic.",
      whenItFails: "Bring another cuff, hose or monitor.",
    },
    yesNo("Inflates", "Fails or absent"),
  ),
  procedureItem(
    "agent-monitor",
    {
      title: "Look at the agent monitor",
      how: "Warmed up, zero in room air, no fault message.",
      why: "A vaporizer that gives too much or nothing is seen here first.",
      whenItFails: "No volatile agent here until one is there.",
    },
    yesNo("Works", "Fails or absent"),
  ),
  procedureItem(
    "oxygen-as-found",
    {
      title: "Sensor in room air, before calibration",
      how: "Take the reading as it is, up to two minutes after it came into air. Do not calibrate yet.",
      why: "Drift tells that the cell nears its end.",
      whenItFails: "Calibrate; note it for the next cell.",
    },
    { kind: "number", unit: "%", least: 0, most: 110, decimals: 1 },
  ),
  procedureItem(
    "oxygen-in-air",
    {
      title: "Sensor in room air, after calibration",
      how: "Out of the circuit, wait until it stands still, calibrate, read.",
      why: "It is the last guard against a hypoxic mixture.",
      whenItFails: "Calibrate again, then change the cell.",
    },
    { kind: "number", unit: "%", least: 0, most: 110, decimals: 1 },
  ),
  procedureItem(
    "low-oxygen-alarm",
    {
      title: "Hear the low-oxygen alarm",
      how: "Set its limit above the reading in room air: it must sound. Set it back.",
      why: "Nobody watches the number all the time.",
      whenItFails: "Do not use without a free-standing analyzer that alarms.",
    },
    yesNo("Sounds", "Silent"),
  ),
  procedureItem(
    "oxygen-after-flush",
    {
      title: "Sensor back in, flush, read",
      how: "Put it back into the circuit, flush with oxygen until the reading stands still.",
      why: "Proves the sensor at its upper end, and that the oxygen supply is oxygen.",
      whenItFails: "Stop. If the sensor is right, the gas is wrong: cylinder on, hose off, tell the plant.",
    },
    { kind: "number", unit: "%", least: 0, most: 110, decimals: 1 },
  ),
  procedureItem(
    "water-trap",
    {
      title: "Empty and seat the water trap",
      how: "Less than half full, seated with a click, no crack.",
      why: "A full trap blinds the monitor; a loose one leaks.",
      whenItFails: "Change it.",
    },
    yesNo("Empty and seated", "Full, loose or cracked"),
  ),
  procedureItem(
    "sample-line",
    {
      title: "Connect the sample line",
      how: "New or dry, connected at both ends, no kink.",
      why: "A loose line leaks and lies.",
      whenItFails: "Change it.",
    },
    yesNo("Connected and clear", "Loose or blocked"),
  ),
];
