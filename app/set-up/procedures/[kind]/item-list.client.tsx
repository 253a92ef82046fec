"use client";

import { useState } from "react";
import { Button } from "@/app/_ui/button.client";
import { Dialog } from "@/app/_ui/dialog.client";
import { Entries, Entry } from "@/app/set-up/entries";
import { BY_WORDS } from "@/app/set-up/procedures/words";
import type { Item } from "./draft-screen.client";
import { ItemForm } from "./item-form.client";

interface ItemListProps {
  readonly items: readonly Item[];
  readonly onChange: (items: readonly Item[]) => void;
}

/** The questions in their order. Two buttons move one, so that a keyboard and a thumb do the same. */
export function ItemList({ items, onChange }: ItemListProps) {
  const [open, setOpen] = useState<number | null>(null);
  const move = (from: number, to: number) => {
    const next = [...items];
    const [moved] = next.splice(from, 1);
    if (moved) next.splice(to, 0, moved);
    onChange(next);
  };
  const shown = open === null ? null : (items[open] ?? null);
  return (
    <>
      <Entries name="Items">
        {items.map((one, place) => (
          <Entry
            key={`${one.item} ${JSON.stringify(one.applies)}`}
            name={`${place + 1}. ${one.title}`}
            facts={[BY_WORDS[one.by], one.sameUserMaySkip ? "the same user may skip it" : null]}
          >
            <Button aria-label={`Up: ${one.title}`} onClick={() => move(place, Math.max(0, place - 1))}>
              Up
            </Button>
            <Button
              aria-label={`Down: ${one.title}`}
              onClick={() => move(place, Math.min(items.length - 1, place + 1))}
            >
              Down
            </Button>
            <Button aria-label={`Edit: ${one.title}`} onClick={() => setOpen(place)}>
              Edit
            </Button>
            <Button
              aria-label={`Take out: ${one.title}`}
              onClick={() => onChange(items.filter((_, other) => other !== place))}
            >
              Take out
            </Button>
          </Entry>
        ))}
      </Entries>
      <Dialog open={shown !== null} title={shown?.title ?? ""} onClose={() => setOpen(null)}>
        {shown ? (
          <ItemForm
            item={shown}
            onDone={(item) => {
              onChange(items.map((one, place) => (place === open ? item : one)));
              setOpen(null);
            }}
          />
        ) : null}
      </Dialog>
    </>
  );
}
