import { judge } from "@/lib/domain/judge";
import type { Judgement } from "@/lib/domain/judgement";
import { type Explained, explained } from "@/lib/domain/why";
import type { DocumentProblem } from "./problem";
import { readEvidence } from "./read-document";

export type JudgedDocument =
  | { readonly ok: true; readonly body: Judgement | Explained }
  | { readonly ok: false; readonly problems: readonly DocumentProblem[] };

/** The judgement of one document, with what can be done about it where somebody asks why; or what keeps it from being judged. */
export function judgeDocument(document: unknown, { why }: { readonly why: boolean }): JudgedDocument {
  const read = readEvidence(document);
  if (!read.ok) return read;
  return { ok: true, body: why ? explained(read.evidence) : judge(read.evidence) };
}
