import type { ReactNode } from "react";

/**
 * The marks are drawn from the pin index: a valve face with its two pins. They differ in outline, so that they are told apart
 * without colour, in print and at three metres. `--hole` is the ground that shows through.
 */
export type MarkShape =
  | "seated"
  | "half-seated"
  | "barred"
  | "open-pins"
  | "struck"
  | "in-use"
  | "closed"
  | "unknown"
  | "due";

const hole = "var(--hole, var(--plate))";

export const MARK_SHAPES: Record<MarkShape, ReactNode> = {
  /** Both pins seated: ready. */
  seated: (
    <>
      <circle cx="16" cy="16" r="14" fill="currentColor" />
      <circle cx="11" cy="19.5" r="2.6" fill={hole} />
      <circle cx="21" cy="19.5" r="2.6" fill={hole} />
    </>
  ),
  /** One pin seated, half the face: ready, limited. */
  "half-seated": (
    <>
      <circle cx="16" cy="16" r="12.7" fill="none" stroke="currentColor" strokeWidth="2.6" />
      <path d="M16 2a14 14 0 0 0 0 28z" fill="currentColor" />
      <circle cx="11" cy="19.5" r="2.6" fill={hole} />
      <circle cx="21" cy="19.5" r="2.4" fill="none" stroke="currentColor" strokeWidth="1.8" />
    </>
  ),
  /** A stop plate with a bar: do not use. */
  barred: (
    <>
      <path d="M10.2 2h11.600L30 10.200v11.600L21.8 30H10.200L2 21.800V10.200z" fill="currentColor" />
      <rect x="8" y="13.8" width="16" height="4.4" fill={hole} />
    </>
  ),
  /** A broken ring, pins open: to check. */
  "open-pins": (
    <>
      <circle
        cx="16"
        cy="16"
        r="12.7"
        fill="none"
        stroke="currentColor"
        strokeWidth="2.8"
        strokeDasharray="5.2 4.775"
      />
      <circle cx="11" cy="19.5" r="2.2" fill="none" stroke="currentColor" strokeWidth="1.8" />
      <circle cx="21" cy="19.5" r="2.2" fill="none" stroke="currentColor" strokeWidth="1.8" />
    </>
  ),
  /** A struck square: out of service. */
  struck: (
    <>
      <rect x="4" y="4" width="24" height="24" rx="3" fill="none" stroke="currentColor" strokeWidth="2.6" />
      <path d="M5 27L27 5" stroke="currentColor" strokeWidth="2.6" />
    </>
  ),
  /** Pins in a lozenge: a case is running. */
  "in-use": (
    <>
      <rect x="1.5" y="8" width="29" height="16" rx="8" fill="none" stroke="currentColor" strokeWidth="2.6" />
      <circle cx="11" cy="16" r="2.9" fill="currentColor" />
      <circle cx="21" cy="16" r="2.9" fill="currentColor" />
    </>
  ),
  /** A plain lozenge: work is due, starting is not touched. */
  due: <path d="M16 3.5L28.5 16 16 28.5 3.5 16z" fill="none" stroke="currentColor" strokeWidth="2.6" />,
  /** A low bar: closed today. */
  closed: <rect x="6" y="14" width="20" height="4" rx="2" fill="currentColor" />,
  /** A dotted lozenge with a question: not known at this moment. */
  unknown: (
    <>
      <path
        d="M16 2.500L29.5 16 16 29.5 2.5 16z"
        fill="none"
        stroke="currentColor"
        strokeWidth="2"
        strokeDasharray="2.5 3.5"
      />
      <path
        d="M12.6 13.200a3.4 3.4 0 1 1 5 3c-1.2.7-1.6 1.3-1.6 2.6"
        fill="none"
        stroke="currentColor"
        strokeWidth="2.2"
      />
      <circle cx="16" cy="22.6" r="1.5" fill="currentColor" />
    </>
  ),
};
