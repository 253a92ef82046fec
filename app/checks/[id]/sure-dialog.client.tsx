"use client";

import { readTyped, type Typed } from "@/app/_parts/answer/typed";
import { Button } from "@/app/_ui/button.client";
import { Dialog } from "@/app/_ui/dialog.client";
import { farFromHistory } from "@/lib/domain/far-from-history";
import type { CheckItemView } from "@/lib/schemas/check";

export interface Doubt {
  readonly item: CheckItemView;
  readonly typed: Typed;
  readonly text: string;
}

/** A reading far from its history is asked about before it is recorded; null when there is nothing to ask. */
export function doubtOf(item: CheckItemView, typed: Typed): Doubt | null {
  const read = readTyped(item.form, typed);
  if (!read.ok || !("reading" in read.answer)) return null;
  const far = farFromHistory(read.answer.reading, item.usual ?? null);
  return far && { item, typed, text: far.text };
}

export function SureDialog({
  doubt,
  onSure,
  onChange,
}: {
  doubt: Doubt | null;
  onSure: (doubt: Doubt) => void;
  onChange: () => void;
}) {
  return (
    <Dialog open={doubt !== null} title="Sure?" onClose={onChange}>
      <p>{doubt?.text}</p>
      <p>Look at it again. If it is right, it is recorded as confirmed.</p>
      <Button look="primary" size="large" wide onClick={onChange}>
        Change it
      </Button>
      <Button size="large" wide onClick={() => doubt && onSure(doubt)}>
        It is right, record it
      </Button>
    </Dialog>
  );
}
