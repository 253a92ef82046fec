"use client";

import { useEffect } from "react";
import { Button } from "@/app/_ui/button.client";

/** Opens the printer's dialog when the page is there: the morning is one key away. */
export function PrintAtOnce() {
  useEffect(() => {
    const soon = setTimeout(() => window.print(), 300);
    return () => clearTimeout(soon);
  }, []);
  return <Button onClick={() => window.print()}>Print again</Button>;
}
