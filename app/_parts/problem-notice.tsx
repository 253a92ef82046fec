import { Notice } from "@/app/_ui/notice";
import type { Problem } from "./api.client";

/** What was refused, and what would be right. */
export function ProblemNotice({ problem }: { problem: Problem | null }) {
  if (!problem) return null;
  // Where the one thing that is wrong is the whole message, its field's name adds nothing that a person could use.
  const errors = (problem.errors ?? []).filter(({ message }) => message !== problem.detail);
  return (
    <Notice tone="wrong" title={problem.title} announce="alert">
      {problem.detail ? <p>{problem.detail}</p> : null}
      {errors.length > 0 ? (
        <ul>
          {errors.map(({ field, message }) => (
            <li key={`${field}:${message}`}>{field ? `${field}: ${message}` : message}</li>
          ))}
        </ul>
      ) : null}
    </Notice>
  );
}
