"use client";

import { useRouter } from "next/navigation";
import { useState } from "react";
import { useMayDo } from "@/app/_parts/session.client";
import { Button } from "@/app/_ui/button.client";
import { TextField } from "@/app/_ui/field";
import { FormActions } from "@/app/_ui/form";
import { LinkButton } from "@/app/_ui/link-button";
import { Notice } from "@/app/_ui/notice";
import { Panel } from "@/app/_ui/panel";
import { Manager } from "@/app/set-up/manager.client";
import { KIND_WORDS } from "@/app/set-up/procedures/words";
import { useView } from "@/app/set-up/use-view.client";
import type { DraftView, ProceduresView } from "@/lib/schemas/procedure";
import { instantOf } from "@/lib/units/time";
import { AddItem } from "./add-item.client";
import { Decide } from "./decide.client";
import { Differences } from "./differences";
import { ItemList } from "./item-list.client";
import { SaveBar } from "./save-bar.client";

export type Text = DraftView["text"];
export type Item = Text["items"][number];

interface DraftScreenProps {
  readonly initial: ProceduresView;
  readonly kind: string;
}

export function DraftScreen({ initial, kind }: DraftScreenProps) {
  const { view: kept, again } = useView("/api/v1/set-up/procedures", initial);
  // The list before this page was read before the draft was begun.
  const view = instantOf(initial.at) > instantOf(kept.at) ? initial : kept;
  const of = view.kinds.find((one) => one.kind === kind);
  const words = of ? KIND_WORDS[of.kind] : null;
  if (!of?.draft || !words)
    return (
      <Manager title={words?.name ?? "Procedure"} sub="Nothing is in writing now">
        <div>
          <LinkButton href="/set-up/procedures" look="primary" size="large">
            Procedures
          </LinkButton>
        </div>
      </Manager>
    );
  const { draft } = of;
  return (
    <Manager title={`${words.name}: the next version`} sub={stateWords(draft)}>
      <Differences draft={draft} />
      {draft.state === "proposed" ? (
        <Decide draft={draft} onDone={again} />
      ) : (
        <Writing key={draft.id} draft={draft} today={view.today} onSaved={again} />
      )}
    </Manager>
  );
}

const stateWords = (draft: DraftView): string =>
  draft.state === "proposed"
    ? `Proposed by ${draft.proposedBy}`
    : `Saved by ${draft.savedBy}, revision ${draft.revision}`;

interface WritingProps {
  readonly draft: DraftView;
  readonly today: string;
  readonly onSaved: () => void;
}

/** What is typed stays here until it is saved; somebody else's save in between is told and takes nothing away. */
function Writing({ draft, today, onSaved }: WritingProps) {
  const router = useRouter();
  const { text, setText, changed, revision, overtaken, adopt, keepMine, savedAs } = useTyped(draft);
  const maySave = useMayDo("save-procedure");
  const setItems = (items: readonly Item[]) => setText({ ...text, items: [...items] });
  return (
    <>
      {overtaken ? (
        <Notice tone="heed" title={`${draft.savedBy} saved revision ${draft.revision} meanwhile`} announce="alert">
          <p>What you typed is still here. Compare, then save yours over it, or take theirs.</p>
          <FormActions>
            <Button onClick={keepMine}>Go on with mine</Button>
            <Button onClick={adopt}>Take theirs</Button>
          </FormActions>
        </Notice>
      ) : null}
      <Panel title="Name and source">
        <TextField
          label="Name"
          value={text.name}
          maxLength={60}
          onChange={({ target }) => setText({ ...text, name: target.value })}
        />
        <TextField
          label="Where it comes from"
          hint="The published list or the department's own decision, as an inspector will read it"
          value={text.citation}
          maxLength={300}
          onChange={({ target }) => setText({ ...text, citation: target.value })}
        />
      </Panel>
      <Panel title="What it asks" aside={`${text.items.length} items, in this order`}>
        <ItemList items={text.items} onChange={setItems} />
        <AddItem items={text.items} onAdd={(item) => setItems([...text.items, item])} />
      </Panel>
      <SaveBar
        draft={{ ...draft, revision }}
        text={text}
        changed={changed}
        mayEdit={maySave}
        today={today}
        onSaved={(saved) => {
          if (saved !== null) savedAs(saved);
          onSaved();
        }}
      />
      <FormActions>
        <Button onClick={() => router.push("/set-up/procedures")}>Back to all procedures</Button>
      </FormActions>
    </>
  );
}

/**
 * What is typed, over the revision that it began from. A newer revision is taken in by itself only where nothing was typed, or where it is
 * what was just saved here.
 */
function useTyped(draft: DraftView) {
  const [text, setText] = useState<Text>(draft.text);
  const [base, setBase] = useState({ revision: draft.revision, text: draft.text });
  const same = (one: Text, other: Text) => JSON.stringify(one) === JSON.stringify(other);
  const [savedHere, setSavedHere] = useState<number | null>(null);
  const changed = !same(text, base.text);
  const newer = draft.revision !== base.revision;
  const takesItIn = newer && (!changed || draft.revision === savedHere);
  if (takesItIn) {
    setBase({ revision: draft.revision, text: draft.text });
    setText(draft.text);
  }
  return {
    text,
    setText,
    changed,
    revision: base.revision,
    overtaken: newer && !takesItIn,
    adopt: () => {
      setBase({ revision: draft.revision, text: draft.text });
      setText(draft.text);
    },
    savedAs: setSavedHere,
    keepMine: () => setBase({ revision: draft.revision, text: draft.text }),
  };
}
