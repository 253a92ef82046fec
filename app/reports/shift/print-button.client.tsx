"use client";

import { Button } from "@/app/_ui/button.client";

export function PrintButton() {
  return <Button onClick={() => window.print()}>Print</Button>;
}
