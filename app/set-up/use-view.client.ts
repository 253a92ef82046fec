"use client";

import { useQuery } from "@tanstack/react-query";
import { viewOrThrow } from "@/app/_parts/api.client";
import { useSession } from "@/app/_parts/session.client";

/** One view of the set-up, as the page brought it and read again after each change. */
export function useView<View>(path: string, initial: View): { view: View; again: () => void } {
  const facilityId = useSession()?.facility.id;
  const { data, refetch } = useQuery({
    queryKey: [path, facilityId],
    queryFn: () => viewOrThrow<View>(path),
    initialData: initial,
  });
  return { view: data ?? initial, again: () => void refetch() };
}
