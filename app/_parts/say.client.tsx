"use client";

import { createContext, type ReactNode, useContext, useMemo } from "react";
import { SCHEME_WORDS, type SiteWords } from "@/lib/domain/site/model";
import { type Say, sayIn } from "@/lib/domain/site-words";
import { useSession } from "./session.client";

const WordsContext = createContext<SiteWords | null>(null);

/** The words for a place without a session, such as a wall. */
export function WordsProvider({ words, children }: { words: SiteWords; children: ReactNode }) {
  return <WordsContext value={words}>{children}</WordsContext>;
}

/** How the facility says things, for what is written in the browser. */
export function useSay(): Say {
  const session = useSession();
  const given = useContext(WordsContext);
  const words = given ?? session?.words ?? SCHEME_WORDS.US;
  return useMemo(() => sayIn(words), [words]);
}
