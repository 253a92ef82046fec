import type { CheckItem } from "@/lib/domain/procedure/decide";
import type { CheckItemView } from "@/lib/schemas/check";

/** The domain's questions as plain data for a screen. */
export function questionsView(items: readonly CheckItem[]): CheckItemView[] {
  return items.map(({ form, limits, subject, ...rest }) => ({
    ...rest,
    subject: { ...subject },
    form:
      form.kind === "choice" ? { kind: "choice", options: form.options.map((option) => ({ ...option })) } : { ...form },
    limits: limits && {
      ...limits,
      atLeast: limits.atLeast && { ...limits.atLeast },
      atMost: limits.atMost && { ...limits.atMost },
    },
  }));
}
