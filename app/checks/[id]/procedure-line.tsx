import type { CheckView } from "@/lib/schemas/check";

/** Said where the check is done and where it is read. */
export const SHORTENED =
  "Shortened: the same user signed the check before it on this workstation today, and nothing happened to it since (FDA 1993, steps 1 to 9).";

/** By which version it is done, or was: it stays with that one, whatever comes into force meanwhile. */
export function ProcedureLine({
  check: { procedure, shortened },
}: {
  check: Pick<CheckView, "procedure" | "shortened">;
}) {
  if (procedure === null) return null;
  return (
    <>
      <p>
        {procedure.name}, version {procedure.version}. {procedure.citation}
      </p>
      {shortened ? <p>{SHORTENED}</p> : null}
    </>
  );
}
