import { type RefObject, useEffect } from "react";

const FIELDS = "input:not([type=checkbox]), textarea, select, dialog *";
const FIRST_CONTROL = "[data-choose], a[href], button";
const ACTIONS: Readonly<Record<string, string>> = { c: "[data-claim]", m: "[data-more]" };

/** Keys that act only while a task has the focus, so that a word spoken or typed elsewhere sets nothing off. */
export function useTaskKeys(list: RefObject<HTMLElement | null>): void {
  useEffect(() => {
    const element = list.current;
    if (!element) return;
    const onKey = (event: KeyboardEvent) => act(element, event);
    element.addEventListener("keydown", onKey);
    return () => element.removeEventListener("keydown", onKey);
  }, [list]);
}

function act(list: HTMLElement, event: KeyboardEvent): void {
  if (event.altKey || event.ctrlKey || event.metaKey || !(event.target instanceof HTMLElement)) return;
  const card = event.target.closest<HTMLElement>("article");
  if (card === null || event.target.matches(FIELDS)) return;
  if (event.key === "ArrowDown" || event.key === "ArrowUp") {
    const cards = [...list.querySelectorAll<HTMLElement>("article")];
    const next = cards[cards.indexOf(card) + (event.key === "ArrowDown" ? 1 : -1)];
    if (!next) return;
    event.preventDefault();
    next.querySelector<HTMLElement>(FIRST_CONTROL)?.focus();
    return;
  }
  const action = ACTIONS[event.key.toLowerCase()];
  if (action !== undefined) card.querySelector<HTMLElement>(action)?.click();
}
