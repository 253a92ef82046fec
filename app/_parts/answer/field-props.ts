import type { ItemId } from "@/lib/domain/items";
import type { Limits } from "./answer-words";
import type { AnswerForm, Typed, TypedField } from "./typed";

type Kind = AnswerForm["kind"];

export interface FieldProps<K extends Kind> {
  readonly form: Extract<AnswerForm, { kind: K }>;
  readonly typed: Extract<Typed, { kind: K }>;
  /** The item's title: every control inside is named after it. */
  readonly label: string;
  readonly limits: Limits;
  readonly error: { readonly field: TypedField | null; readonly message: string } | null;
  /** Which item is asked: some choices are drawn as well as said. */
  readonly item: ItemId;
  /** The fields repeat a recorded answer: the first figure typed begins a new one. */
  readonly recorded?: boolean;
  readonly onTyped: (typed: Extract<Typed, { kind: K }>) => void;
  /** The fields say a whole answer: a tap on “Works” needs no second tap. */
  readonly onComplete: (typed: Extract<Typed, { kind: K }>) => void;
}

/** The message for one field, and for the whole item where the server named none. */
export function errorOf(error: FieldProps<Kind>["error"], field: TypedField): string | null {
  return error && (error.field === field || error.field === null) ? error.message : null;
}
