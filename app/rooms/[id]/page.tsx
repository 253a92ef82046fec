import { notFound } from "next/navigation";
import { requirePerson } from "@/app/_edge/page-actor";
import { whenRead } from "@/app/_parts/when-read";
import { Page } from "@/app/_ui/page";
import { Skeleton } from "@/app/_ui/skeleton";
import { readRoom } from "@/lib/queries/room";
import { RoomScreen } from "./room-screen.client";

interface RoomPageProps {
  params: Promise<{ id: string }>;
}

export default async function RoomPage({ params }: RoomPageProps) {
  const { id } = await params;
  const actor = await requirePerson(`/rooms/${encodeURIComponent(id)}`);
  return whenRead(
    readRoom(actor, id),
    (room) => {
      if (!room) notFound();
      return (
        <>
          <title>{`${room.row.name} · Yokeboard`}</title>
          <RoomScreen initial={room} />
        </>
      );
    },
    <Page>
      <Skeleton what="the room" picture="tall" lines={6} />
    </Page>,
  );
}
