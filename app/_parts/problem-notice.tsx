import { Notice } from "@/app/_ui/notice";
import type { Problem } from "./api.client";

/** What was refused, and what would be right. */
export function ProblemNotice({ problem }: { problem: Problem | null }) {
  if (!problem) return null;
  return (
    <Notice tone="wrong" title={problem.title} announce="alert">
      {problem.detail ? <p>{problem.detail}</p> : null}
      {problem.errors && problem.errors.length > 0 ? (
        <ul>
          {problem.errors.map(({ field, message }) => (
            <li key={`${field}:${message}`}>{field ? `${field}: ${message}` : message}</li>
          ))}
        </ul>
      ) : null}
    </Notice>
  );
}
