import { Notice } from "@/app/_ui/notice";

/** A signature is bound to what was shown; the check has moved on, so it says how, and asks for another look. */
export function MovedOn({ changes }: { changes: readonly string[] }) {
  return (
    <Notice tone="heed" title="The check has moved on since you saw it. Nothing was signed." announce="alert">
      {changes.length > 0 ? (
        <ul>
          {changes.map((change) => (
            <li key={change}>{change}</li>
          ))}
        </ul>
      ) : null}
      <p>What you see now is up to date. Look at it, then sign.</p>
    </Notice>
  );
}
