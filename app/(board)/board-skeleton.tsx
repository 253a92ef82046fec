import { RoomsTabs } from "@/app/_parts/rooms-tabs";
import { Said } from "@/app/_parts/said.client";
import { Page } from "@/app/_ui/page";
import { Skeleton } from "@/app/_ui/skeleton";
import { VisuallyHidden } from "@/app/_ui/visually-hidden";
import styles from "./board.module.css";

/** The board's own places, empty: when the rooms come, nothing moves. It shows no state. */
export function BoardSkeleton({ name }: { name: string }) {
  return (
    <Page>
      <RoomsTabs />
      <div className={styles.top}>
        <h1 className={styles.place}>
          <Said>Rooms</Said> <span>{name}</span>
        </h1>
      </div>
      <Skeleton what="the rooms" lines={10} />
      <VisuallyHidden>No state is known yet.</VisuallyHidden>
    </Page>
  );
}
