"use client";

import { type UseQueryResult, useQuery } from "@tanstack/react-query";
import { useOnChange, WHOLE_BOARD_ONLY } from "@/app/_live/use-live.client";
import type { MessagesView } from "@/lib/schemas/messages";
import { viewOrThrow } from "./api.client";
import { useSession } from "./session.client";

/** As often as what is on its way is looked after, until it has arrived or failed. */
const ON_ITS_WAY_MS = 2_000;
/** From one page to the next it need not be read again. */
const FRESH_MS = 20_000;

const isOnItsWay = ({ last }: MessagesView["channels"][number]): boolean =>
  last !== null && last.sentAt === null && last.problem === null;

/** What this person was asked, how they are reached and who else could be asked; read again when anybody is asked or answers. */
export function useMessages(initialData?: MessagesView): UseQueryResult<MessagesView> {
  const facilityId = useSession()?.facility.id;
  const messages = useQuery({
    queryKey: ["messages", facilityId],
    queryFn: () => viewOrThrow<MessagesView>("/api/v1/messages"),
    enabled: facilityId !== undefined,
    staleTime: FRESH_MS,
    refetchInterval: ({ state }) => (state.data?.channels.some(isOnItsWay) ? ON_ITS_WAY_MS : false),
    ...(initialData ? { initialData } : {}),
  });
  useOnChange(WHOLE_BOARD_ONLY, () => void messages.refetch());
  return messages;
}
