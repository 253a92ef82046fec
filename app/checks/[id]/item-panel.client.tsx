"use client";

import { type FormEvent, type ReactNode, useEffect, useId, useRef, useState } from "react";
import { AnswerField } from "@/app/_parts/answer/answer-field.client";
import type { Typed } from "@/app/_parts/answer/typed";
import { TextAreaField } from "@/app/_ui/field";
import type { CheckItemView } from "@/lib/schemas/check";
import { type CheckState, fieldsOf, standingOf } from "./check-state";
import styles from "./item-panel.module.css";
import { RecordedLine } from "./recorded-line.client";

export interface ItemPanelProps {
  readonly state: CheckState;
  readonly item: CheckItemView;
  readonly position: string;
  readonly onTyped: (typed: Typed) => void;
  readonly onComplete: (typed: Typed) => void;
  /** Enter, or the footer's Next. */
  readonly onNext: () => void;
  readonly footer: ReactNode;
  /** What is said or done here before the fields are filled in. */
  readonly before?: ReactNode;
}

/** One item of the check: what to do, why, the fields, and what was recorded. */
export function ItemPanel({ state, item, position, onTyped, onComplete, onNext, footer, before }: ItemPanelProps) {
  const id = useId();
  const form = useRef<HTMLFormElement>(null);
  const error = state.errors[item.key] ?? null;
  useFocusOnItem(form, item.key);
  useFocusOnMissing(form, error?.field ?? null, error);
  const typed = fieldsOf(state, item);
  const standing = standingOf(state, item);
  const repeats = standing.answer !== null && state.typed[item.key] === undefined;
  useReplacing(form, item.key, repeats);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    onNext();
  };
  return (
    <form ref={form} className={styles.panel} aria-labelledby={`${id}-title`} onSubmit={submit} noValidate>
      <div className={styles.words}>
        <p className={styles.position}>
          {position}
          {EACH_LOOKS[item.by] ?? ""}
        </p>
        <h2 id={`${id}-title`} className={styles.title} tabIndex={-1} data-title="">
          {item.title}
        </h2>
        <HowAndWhy how={item.how} why={item.why} />
      </div>
      <div className={styles.fields}>
        {before}
        <RecordedLine state={state} item={item} />
        <AnswerField
          key={item.key}
          form={item.form}
          typed={typed}
          label={item.title}
          limits={item.limits}
          error={error}
          item={item.item}
          recorded={repeats}
          onTyped={onTyped}
          onComplete={onComplete}
        />
        {standing.answer !== null || typed.note !== "" ? (
          <details className={styles.why} open={standing.state === "failing" || typed.note !== "" ? true : undefined}>
            <summary>{standing.state === "failing" ? "What did you see?" : "Add a note"}</summary>
            <TextAreaField
              label="Note, kept with the answer"
              maxLength={500}
              rows={2}
              value={typed.note}
              onChange={(event) => onTyped({ ...typed, note: event.target.value })}
            />
          </details>
        ) : null}
      </div>
      {footer}
    </form>
  );
}

/** What to do, and on asking why: its words stay out of the way of somebody who knows. */
function HowAndWhy({ how, why }: { how: string; why: string }) {
  const [asked, setAsked] = useState(false);
  const id = useId();
  return (
    <>
      <p className={styles.how}>
        {how}{" "}
        {why ? (
          <button
            type="button"
            className={styles.whyLink}
            aria-expanded={asked}
            aria-controls={id}
            onClick={() => setAsked(!asked)}
          >
            Why?
          </button>
        ) : null}
      </p>
      <p id={id} className={styles.because} hidden={!asked}>
        {why}
      </p>
    </>
  );
}

/** Said where it matters who looks: two looks on purpose, or one that cannot be handed on. */
const EACH_LOOKS: Partial<Record<CheckItemView["by"], string>> = {
  both: " · technician and provider each look",
  provider: " · the provider looks",
};

/** A new item comes up: a keyboard goes on in its first field, a thumb starts at its title (and no field scrolls it away). */
function useFocusOnItem(form: { current: HTMLFormElement | null }, key: string) {
  const shown = useRef<string | null>(null);
  useEffect(() => {
    const first = shown.current === null;
    shown.current = key;
    const fine = window.matchMedia("(pointer: fine)").matches;
    const target = form.current?.querySelector<HTMLElement>(fine ? "[data-first]" : "[data-title]");
    target?.focus({ preventScroll: true });
    if (!first) scrollToItem(form.current);
  }, [form, key]);
}

/** Figures of a recorded answer stand selected, so that typing replaces them instead of adding to them. */
function useReplacing(form: { current: HTMLFormElement | null }, key: string, repeats: boolean) {
  useEffect(() => {
    const input = form.current?.querySelector("input[data-first]");
    if (key && repeats && input instanceof HTMLInputElement && input === document.activeElement) input.select();
  }, [form, key, repeats]);
}

/** What is missing gets the focus, so that y, n or a figure goes where it belongs. */
function useFocusOnMissing(form: { current: HTMLFormElement | null }, field: string | null, error: unknown) {
  useEffect(() => {
    if (!error || !field) return;
    const missing = form.current?.querySelector<HTMLElement>(`[data-field="${field}"] button`);
    missing?.focus();
  }, [form, field, error]);
}

/** From the top while the item fits below the page's head; a taller one starts at its own top, with its fields under the thumb. */
function scrollToItem(form: HTMLFormElement | null) {
  if (!form) return;
  const top = form.getBoundingClientRect().top + window.scrollY;
  const fits = top + form.offsetHeight <= window.innerHeight;
  window.scrollTo({ top: fits ? 0 : top - 4 });
}
