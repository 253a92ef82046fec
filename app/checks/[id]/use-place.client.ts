"use client";

import { useCallback, useEffect, useState } from "react";
import type { CheckItemView } from "@/lib/schemas/check";

/**
 * Where the person is in the check: an item's key, or "sign". The address keeps it (#6, #sign), so a reload comes back to the same
 * place; moving through items replaces the address, so one step back leaves the check instead of walking it backwards.
 */
export function usePlace(items: readonly CheckItemView[], start: string): [string, (place: string) => void] {
  const [place, setPlace] = useState(start);
  useEffect(() => {
    const hash = window.location.hash.slice(1);
    const item = items[Number(hash) - 1];
    if (hash === "sign") setPlace("sign");
    else if (item) setPlace(item.key);
  }, [items]);
  const goTo = useCallback(
    (next: string) => {
      setPlace(next);
      const index = items.findIndex((item) => item.key === next);
      window.history.replaceState(window.history.state, "", index < 0 ? "#sign" : `#${index + 1}`);
    },
    [items],
  );
  return [place, goTo];
}
