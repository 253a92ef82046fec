import type { CheckItem } from "@/lib/domain/procedure/decide";
import type { Role } from "@/lib/domain/vocabulary";

type Asked = Pick<CheckItem, "by" | "title">;

const isTechnical = (roles: readonly Role[]): boolean =>
  roles.includes("technician") || roles.includes("biomedical-engineer");
const isProvider = (roles: readonly Role[]): boolean => roles.includes("provider") || roles.includes("charge-provider");

/**
 * Null when somebody with these roles may answer the question, else why not. A provider who checks alone answers the technician's
 * questions, too, where the site lets one person do the whole check.
 */
export function whyNotAnswered({ by, title }: Asked, roles: readonly Role[], providerAlone: boolean): string | null {
  switch (by) {
    case "either":
    case "both":
      return null;
    case "technician":
      return isTechnical(roles) || (providerAlone && isProvider(roles)) ? null : `${title}: a technician answers this.`;
    case "provider":
      return isProvider(roles) ? null : `${title}: a provider answers this.`;
    case "not-delegated":
      return isProvider(roles) ? null : `${title}: the provider who signs answers this, and nobody for them.`;
  }
}

/** What must not be delegated and was answered by somebody else than who signs for it now. */
export function delegated(
  asked: readonly CheckItem[],
  answeredBy: (key: string) => string | null,
  personId: string,
): readonly CheckItem[] {
  return asked.filter(({ by, key }) => {
    const who = by === "not-delegated" ? answeredBy(key) : null;
    return who !== null && who !== personId;
  });
}
