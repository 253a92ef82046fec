import type { Procedure } from "@/lib/domain/procedure/model";
import { picked } from "@/lib/domain/ready-made-procedures/all-items";
import { DAILY_ISO } from "@/lib/domain/ready-made-procedures/daily-iso";
import { DAILY_US } from "@/lib/domain/ready-made-procedures/daily-us";

const FOUND = picked(["found-power", "found-gas"]);

/** The daily check that begins with how the workstation was found: was it on, was gas flowing? */
export const DAILY_US_AS_FOUND: Procedure = {
  ...DAILY_US,
  id: "daily-us-as-found",
  name: "Daily machine check with as-found remarks",
  items: [...FOUND, ...DAILY_US.items],
};

export const DAILY_ISO_AS_FOUND: Procedure = {
  ...DAILY_ISO,
  id: "daily-iso-as-found",
  name: "Session check with as-found remarks",
  items: [...FOUND, ...DAILY_ISO.items],
};
