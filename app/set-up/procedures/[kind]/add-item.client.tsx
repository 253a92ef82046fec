"use client";

import { type FormEvent, useState } from "react";
import { Button } from "@/app/_ui/button.client";
import { Choice } from "@/app/_ui/choice";
import { Dialog } from "@/app/_ui/dialog.client";
import { SelectField, TextField } from "@/app/_ui/field";
import { Form, FormActions } from "@/app/_ui/form";
import { isOwnItem, itemOf, OWN_ITEM_LONGEST, type OwnItemId } from "@/lib/domain/items";
import { ALL_ITEMS } from "@/lib/domain/ready-made-procedures/all-items";
import type { Item } from "./draft-screen.client";

interface AddItemProps {
  readonly items: readonly Item[];
  readonly onAdd: (item: Item) => void;
}

/** From the list of everything that a rule knows, or a question of the site's own. */
export function AddItem({ items, onAdd }: AddItemProps) {
  const [open, setOpen] = useState<"list" | "own" | null>(null);
  const add = (item: Item) => {
    onAdd(item);
    setOpen(null);
  };
  return (
    <>
      <FormActions>
        <Button size="large" onClick={() => setOpen("list")}>
          Add an item
        </Button>
        <Button size="large" onClick={() => setOpen("own")}>
          Add a question of our own
        </Button>
      </FormActions>
      <Dialog open={open === "list"} title="Add an item" onClose={() => setOpen(null)}>
        <FromList items={items} onAdd={add} />
      </Dialog>
      <Dialog open={open === "own"} title="A question of our own" onClose={() => setOpen(null)}>
        <OwnQuestion items={items} onAdd={add} />
      </Dialog>
    </>
  );
}

function FromList({ items, onAdd }: AddItemProps) {
  const left = ALL_ITEMS.filter((one) => !items.some(({ item }) => item === one.item));
  const [chosen, setChosen] = useState("");
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const found = left[Number(chosen)];
    if (chosen !== "" && found) onAdd(JSON.parse(JSON.stringify(found)) as Item);
  };
  return (
    <Form onSubmit={submit}>
      <SelectField label="Item" value={chosen} onChange={({ target }) => setChosen(target.value)}>
        <option value="">Choose one</option>
        {left.map(({ item, title }, place) => (
          <option key={`${item} ${title}`} value={place}>
            {title} ({itemOf(item).name})
          </option>
        ))}
      </SelectField>
      <Button type="submit" look="primary" size="large" wide>
        Add at the end
      </Button>
    </Form>
  );
}

function OwnQuestion({ items, onAdd }: AddItemProps) {
  const [title, setTitle] = useState("");
  const [about, setAbout] = useState<"workstation" | "room" | null>(null);
  const [tried, setTried] = useState(false);
  const id = about === null ? null : ownId(about, title);
  const taken = id !== null && items.some(({ item }) => item === id);
  const error = taken
    ? "A question of these words is in the list already."
    : id === null
      ? "Ask it in a few words, with letters or figures."
      : null;
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (id === null || error !== null) return;
    onAdd({
      item: id,
      title: title.trim(),
      how: "Look and answer.",
      why: "The department decided to ask it.",
      whenItFails: "Tell the charge provider.",
      answer: { kind: "pass", yes: "Yes", no: "No" },
      by: "either",
      applies: {},
      failing: "due",
    });
  };
  return (
    <Form onSubmit={submit}>
      <TextField
        label="Question"
        value={title}
        maxLength={60}
        error={tried && about !== null ? error : null}
        onChange={({ target }) => setTitle(target.value)}
      />
      <Choice
        legend="What is it about?"
        size="large"
        options={[
          { value: "workstation", label: "The workstation" },
          { value: "room", label: "The room" },
        ]}
        value={about}
        error={tried && about === null ? "Choose one." : null}
        onChange={setAbout}
      />
      <Button type="submit" look="primary" size="large" wide>
        Add at the end
      </Button>
    </Form>
  );
}

/** Its id is made of its first words and stays, however it is worded later. */
function ownId(about: "workstation" | "room", title: string): OwnItemId | null {
  const words = title
    .normalize("NFKD")
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, "-")
    .replaceAll(/^-+|-+$/g, "");
  const id = `own-${about}-${words}`.slice(0, OWN_ITEM_LONGEST).replace(/-+$/, "");
  return words !== "" && isOwnItem(id) ? id : null;
}
