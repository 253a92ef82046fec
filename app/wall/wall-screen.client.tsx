"use client";

import { useMemo, useState } from "react";
import { Said } from "@/app/_parts/said.client";
import { classNames } from "@/app/_ui/class-names";
import type { WallBoard } from "@/lib/schemas/wall";
import { adoptOffsets, instant, type ZoneOffsets } from "@/lib/units/time";
import { useTurning } from "./use-turning.client";
import { useWall } from "./use-wall.client";
import styles from "./wall.module.css";
import { WallGridView } from "./wall-grid";
import { WallHead } from "./wall-head";
import { wallPages, wallSuites } from "./wall-layout";
import look from "./wall-look.module.css";
import { WallTurning } from "./wall-turning.client";

interface WallScreenProps {
  initial: WallBoard;
  /** The server's offsets of the facility's zone: this device may know others. */
  offsets: ZoneOffsets;
  look: "dark" | "light" | "system";
}

/** Which rooms can start, for whoever passes: every room in its fixed place, no names, nothing to press. */
export function WallScreen({ initial, offsets, look: chosen }: WallScreenProps) {
  useState(() => (typeof window === "undefined" ? undefined : adoptOffsets(offsets)));
  const { wall, live, now: clock, ended } = useWall(initial);
  const now = instant(clock);
  const suites = useMemo(() => wallSuites(wall.rooms), [wall.rooms]);
  const pages = useMemo(() => wallPages(suites), [suites]);
  const turning = useTurning(pages.length);
  return (
    <main className={classNames(styles.wall, look.look, look[chosen])}>
      <WallHead wall={wall} live={live} now={now} ended={ended} />
      {pages.length > 1 ? <WallTurning turning={turning} pages={pages.length} /> : null}
      {wall.rooms.length === 0 ? (
        <p className={styles.none}>
          <Said>This facility has no rooms yet.</Said>
        </p>
      ) : (
        <WallGridView
          suites={pages[turning.page] ?? []}
          now={now}
          zone={wall.facility.timeZone}
          named={suites.length > 1}
          known={live.state === "live"}
        />
      )}
    </main>
  );
}
