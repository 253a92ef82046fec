"use client";

/** The last resort, when even the frame of the page failed: no styles, no parts of ours that could fail again. */
export default function GlobalError({ reset }: { reset: () => void }) {
  return (
    <html lang="en">
      <body>
        <title>Yokeboard cannot be shown</title>
        <main>
          <h1>Yokeboard cannot be shown</h1>
          <p>
            The fault is on our side. Nothing that was confirmed is lost. Go by the workstation itself and by paper.
          </p>
          <button type="button" onClick={reset}>
            Try again
          </button>
        </main>
      </body>
    </html>
  );
}
