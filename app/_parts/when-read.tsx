import { setTimeout as pause } from "node:timers/promises";
import { type ReactNode, Suspense } from "react";

/** What is read sooner than this comes at once: empty places that are filled in the next moment would only flicker. */
const WORTH_WAITING_MS = 200;

/** Shows what is being read; where that takes long, first its places, empty, in which nothing moves when it comes. */
export async function whenRead<Read>(
  reading: Promise<Read>,
  show: (read: Read) => ReactNode,
  meanwhile: ReactNode,
): Promise<ReactNode> {
  const early = await Promise.race([reading.then((read) => ({ read })), pause(WORTH_WAITING_MS, null)]);
  if (early) return show(early.read);
  return (
    <Suspense fallback={meanwhile}>
      <Later reading={reading} show={show} />
    </Suspense>
  );
}

async function Later<Read>({ reading, show }: { reading: Promise<Read>; show: (read: Read) => ReactNode }) {
  return show(await reading);
}
