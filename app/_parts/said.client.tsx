"use client";

import { useSay } from "./say.client";

/** A fixed text in the facility's own words. */
export function Said({ children }: { children: string }) {
  return useSay()(children);
}
