"use client";

import { useQuery } from "@tanstack/react-query";
import { useOnChange } from "@/app/_live/use-live.client";
import { viewOrThrow } from "@/app/_parts/api.client";
import type { OpenChecksView, OpenCheckView } from "@/lib/schemas/work";

export interface OpenChecks {
  /** What this check is among those that are open; null until it is known, and once it is signed. */
  readonly here: { readonly check: OpenCheckView; readonly mine: boolean } | null;
  /** This person's other open checks, the longest open first. */
  readonly elsewhere: readonly OpenCheckView[];
  readonly refresh: () => void;
}

const NONE: OpenChecksView = { mine: [], others: [], at: "" };
const READ_AGAIN_MS = 60_000;

/** Several checks are open at once while self-tests run; whoever stands in one sees the others. */
export function useOpenChecks(checkId: string): OpenChecks {
  const { data = NONE, refetch } = useQuery({
    queryKey: ["open-checks"],
    queryFn: () => viewOrThrow<OpenChecksView>("/api/v1/checks"),
    refetchInterval: READ_AGAIN_MS,
  });
  const places = data.mine.map(({ room, workstation }) => room?.id ?? workstation.id);
  useOnChange(places, () => void refetch());
  return { ...sorted(data, checkId), refresh: () => void refetch() };
}

/** Which of the open checks is this one, and which are the person's others. */
export function sorted({ mine, others }: OpenChecksView, checkId: string): Omit<OpenChecks, "refresh"> {
  const own = mine.find((check) => check.checkId === checkId);
  const foreign = others.find((check) => check.checkId === checkId);
  const here = own ? { check: own, mine: true } : foreign ? { check: foreign, mine: false } : null;
  const elsewhere = mine
    .filter((check) => check.checkId !== checkId)
    .sort((left, right) => left.startedAt.localeCompare(right.startedAt));
  return { here, elsewhere };
}
