"use client";

import { type ReactNode, useEffect, useRef } from "react";

/** What took the place of a form that is gone: a keyboard and a screen reader go on here, and not at the page's top. */
export function FocusOnShow({ className, children }: { className?: string; children: ReactNode }) {
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => place.current?.focus(), []);
  return (
    <div ref={place} tabIndex={-1} className={className}>
      {children}
    </div>
  );
}
