"use client";

import { useCallback, useEffect, useState } from "react";
import type { CheckItemView } from "@/lib/schemas/check";
import { isUntouched, type Typed, typedFrom, untouched } from "./typed";

type Fields = Readonly<Record<string, Typed>>;

/** Fields of a few items, kept on this device under `name` until they are signed: a reload or an ended session loses nothing. */
export function useKeptTyped(name: string, items: readonly CheckItemView[]) {
  const [typed, setTyped] = useState<Fields>({});
  useEffect(() => setTyped(read(name, items)), [name, items]);
  const change = useCallback(
    (key: string, fields: Typed) =>
      setTyped((before) => {
        const after = { ...before, [key]: fields };
        write(name, after);
        return after;
      }),
    [name],
  );
  const clear = useCallback(() => {
    setTyped({});
    write(name, {});
  }, [name]);
  const of = (item: CheckItemView): Typed => typed[item.key] ?? untouched(item.form);
  return { of, change, clear };
}

function read(name: string, items: readonly CheckItemView[]): Fields {
  try {
    const kept: unknown = JSON.parse(window.localStorage.getItem(name) ?? "{}");
    const drafts =
      typeof kept === "object" && kept !== null ? new Map<string, unknown>(Object.entries(kept)) : new Map();
    return Object.fromEntries(items.map(({ key, form }) => [key, typedFrom(drafts.get(key), form)]));
  } catch {
    return {};
  }
}

function write(name: string, typed: Fields) {
  try {
    const begun = Object.entries(typed).filter(([, fields]) => !isUntouched(fields));
    if (begun.length === 0) window.localStorage.removeItem(name);
    else window.localStorage.setItem(name, JSON.stringify(Object.fromEntries(begun)));
  } catch {
    // A browser that keeps nothing: the fields live as long as the page.
  }
}
