import { notFound } from "next/navigation";
import { requirePerson } from "@/app/_edge/page-actor";
import { readRoom } from "@/lib/queries/room";
import { RoomScreen } from "./room-screen.client";

interface RoomPageProps {
  params: Promise<{ id: string }>;
}

export default async function RoomPage({ params }: RoomPageProps) {
  const { id } = await params;
  const actor = await requirePerson(`/rooms/${encodeURIComponent(id)}`);
  const room = await readRoom(actor, id);
  if (!room) notFound();
  return (
    <>
      <title>{`${room.row.name} · Yokeboard`}</title>
      <RoomScreen initial={room} />
    </>
  );
}
