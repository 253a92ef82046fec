import type { FittedCylinder, WorkstationEvidence } from "@/lib/domain/evidence";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import { fitsYoke } from "@/lib/domain/pin-index";
import type { Gas } from "@/lib/domain/vocabulary";
import type { LocalDate } from "@/lib/units/time";

/** A cylinder somebody wants to fit. */
export interface Candidate {
  readonly id: string;
  readonly serial: string;
  readonly gas: Gas;
  readonly contents: string;
  readonly expiry: string | null;
  readonly fittedTo: string | null;
}

export interface Swap {
  /** What comes off the yoke, when something is on it. */
  readonly takenOff: FittedCylinder | null;
}

/**
 * May this cylinder go on that yoke? The pin index decides first: it is what the yoke itself would refuse. Whoever says which cylinder
 * they saw there is told when it is another by now, so that nobody takes off (and calls empty) what somebody else has just fitted.
 */
export function decideSwap(
  workstation: WorkstationEvidence,
  position: string,
  cylinder: Candidate,
  today: LocalDate,
  seen?: string | null,
): Outcome<Swap, "not-found" | "does-not-fit" | "taken" | "moved-on"> {
  const yoke = workstation.model.yokes.find((one) => one.position === position);
  if (!yoke) {
    const known = workstation.model.yokes.map((one) => `${one.position} (${one.gas.replace("-", " ")})`).join(", ");
    return refused(
      "not-found",
      `${workstation.tag} has no yoke ${position}; its yokes are ${known || "none"}.`,
      "position",
    );
  }
  const fits = fitsYoke(cylinder.gas, yoke.gas);
  if (!fits.ok) return refused("does-not-fit", fits.message, "cylinder");
  if (cylinder.fittedTo !== null)
    return refused(
      "taken",
      `Cylinder ${cylinder.serial} is fitted to ${cylinder.fittedTo}. Choose one that is in a store.`,
      "cylinder",
    );
  if (cylinder.contents === "empty")
    return refused("does-not-fit", `Cylinder ${cylinder.serial} is recorded as empty. Choose a full one.`, "cylinder");
  if (cylinder.expiry !== null && cylinder.expiry < today)
    return refused(
      "does-not-fit",
      `Cylinder ${cylinder.serial} passed its expiry date on ${cylinder.expiry}. Choose one that is in date.`,
      "cylinder",
    );
  const takenOff = workstation.fitted.cylinders.find((fitted) => fitted.position === position) ?? null;
  if (seen !== undefined && seen !== (takenOff?.id ?? null))
    return refused(
      "moved-on",
      `Yoke ${position} holds ${takenOff ? `cylinder ${takenOff.serial}` : "no cylinder"} by now. Look at it again. Nothing was changed.`,
      "takesOff",
    );
  return done({ takenOff });
}
