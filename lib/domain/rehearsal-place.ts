import type { Evidence, FacilityEvidence, FittedCylinder } from "@/lib/domain/evidence";
import { NOTHING_ON_RECORD } from "@/lib/domain/nothing-on-record";
import type { Place } from "@/lib/domain/rule";
import type { Gas } from "@/lib/domain/vocabulary";
import { quantity } from "@/lib/units/quantity";
import type { Timestamp } from "@/lib/units/time";

/** When the imagined parts were fitted: long ago, so that no rule finds them new. */
const FITTED: Timestamp = "2020-01-06T12:00:00.000Z";

/** A room and a workstation that do not exist, with everything a daily check can ask about. The site's own limits and units hold. */
export function imaginedPlace(facility: FacilityEvidence, settings: Evidence["settings"]): Place {
  const { scheme } = facility;
  return {
    facility,
    settings,
    room: {
      id: "rehearsal-room",
      name: "Rehearsal",
      suite: "Rehearsal",
      zone: null,
      piped: ["oxygen", "air", "nitrous-oxide"],
      vacuum: true,
      wasteGas: "active",
      occupancy: { state: "idle" },
      list: null,
    },
    workstation: {
      id: "rehearsal-workstation",
      tag: "PRACTICE",
      model: {
        name: "Practice workstation",
        drive: "ascending-bellows",
        driveGas: "oxygen",
        leakTest: "bulb",
        oxygenSensor: "galvanic",
        mounts: ["1", "2"],
        yokes: [
          { position: "1", gas: "oxygen" },
          { position: "2", gas: "nitrous-oxide" },
        ],
        selfTestCovers: [],
        outletSelector: true,
        vaporFreeMinutes: null,
      },
      fitted: {
        cylinders: [cylinder("oxygen", "1", scheme), cylinder("nitrous-oxide", "2", scheme)],
        vaporizers: [vaporizer("sevoflurane", "1"), vaporizer("desflurane", "2")],
        absorbent: [
          {
            id: "rehearsal-absorbent",
            tag: "Canister",
            position: "1",
            product: { name: "Absorbent", indicator: true, reverts: false, strongBase: false, litresPer100g: 12 },
            massG: 1000,
            from: FITTED,
          },
        ],
        oxygenSensor: { id: "rehearsal-sensor", tag: "Sensor", kind: "galvanic", from: FITTED },
      },
      ...NOTHING_ON_RECORD,
      recentFailures: [],
    },
  };
}

function cylinder(gas: Gas, position: string, scheme: FacilityEvidence["scheme"]): FittedCylinder {
  const us = scheme === "US";
  return {
    id: `rehearsal-${gas}`,
    serial: `practice ${gas}`,
    position,
    gas,
    scheme,
    size: "E",
    waterCapacityL: us ? 4.8 : 4.7,
    ratedContentsL: gas === "oxygen" ? (us ? 660 : 680) : us ? 1590 : 1800,
    ratedPressure:
      gas === "oxygen" ? quantity(us ? 1900 : 137, us ? "psi" : "bar") : quantity(us ? 745 : 44, us ? "psi" : "bar"),
    from: FITTED,
    expiry: null,
    retestDue: null,
  };
}

const vaporizer = (agent: "sevoflurane" | "desflurane", mount: string) => ({
  id: `rehearsal-${agent}`,
  tag: agent,
  mount,
  agent,
  filler: agent === "sevoflurane" ? "keyed" : "bottle",
  from: FITTED,
  calibration: null,
});
