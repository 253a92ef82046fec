import type { Evidence } from "@/lib/domain/evidence";
import type { Judgement } from "@/lib/domain/judgement";
import { type Clearing, whatClears } from "@/lib/domain/way-clearing";
import { blockingReasons, sceneOf, shortestWay, type Way } from "@/lib/domain/way-shortest";

/** A judgement with what can be done about it. Costs many judgements, so it is made only where somebody asks. */
export interface Explained extends Judgement {
  readonly whatClears: readonly Clearing[];
  /** The shortest way to ready for the list; null for a room that is ready for it, and where no way is known. */
  readonly whyNot: Way | null;
}

export function explained(evidence: Evidence, withSpare: Evidence | null = null): Explained {
  const scene = sceneOf(evidence);
  const ready = blockingReasons(scene).length === 0;
  return { ...scene.judgement, whatClears: whatClears(scene), whyNot: ready ? null : shortestWay(evidence, withSpare) };
}
