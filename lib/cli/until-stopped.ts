/** npm passes Ctrl-C on although the terminal has sent it to us too: one press arrives twice. */
const SAME_PRESS_MS = 400;

/**
 * Ends the program in order at the first Ctrl-C or SIGTERM, and at once at the second.
 * Whoever asks is answered by the exit code: 0 when everything was stopped as it should be.
 * Returns a way to ask whether a signal has come.
 */
export function stopOnSignal(stop: () => Promise<void>): () => boolean {
  let since: number | undefined;
  const onSignal = () => {
    if (since !== undefined) {
      if (performance.now() - since > SAME_PRESS_MS) process.exit(1);
      return;
    }
    since = performance.now();
    stop().then(
      () => process.exit(0),
      (error: unknown) => {
        console.error(error);
        process.exit(1);
      },
    );
  };
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) process.on(signal, onSignal);
  return () => since !== undefined;
}
