/** A hanger yoke seen from the front: the frame, and the two pins that let only the right cylinder in. */
export function Wordmark() {
  return (
    <>
      <svg width="26" height="26" viewBox="0 0 26 26" aria-hidden="true" focusable="false">
        <path d="M4 2v12a9 9 0 0 0 18 0V2" fill="none" stroke="currentColor" strokeWidth="3.2" strokeLinecap="round" />
        <circle cx="9.8" cy="13" r="2.1" fill="currentColor" />
        <circle cx="16.2" cy="13" r="2.1" fill="currentColor" />
      </svg>
      Yokeboard
    </>
  );
}
