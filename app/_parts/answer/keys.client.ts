"use client";

import type { KeyboardEvent } from "react";

/**
 * Answers by single keys, heard only while the focus is inside the question they belong to, and never while somebody types in a
 * text field (WCAG 2.1.4).
 */
export function onAnswerKey(keys: Readonly<Record<string, () => void>>) {
  return (event: KeyboardEvent<HTMLElement>) => {
    const act = keys[event.key.toLowerCase()];
    if (!act || event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) return;
    const { target } = event;
    if (
      target instanceof HTMLInputElement ||
      target instanceof HTMLTextAreaElement ||
      target instanceof HTMLSelectElement
    )
      return;
    event.preventDefault();
    event.stopPropagation();
    act();
  };
}
