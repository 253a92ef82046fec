import { whenText } from "@/app/_parts/format";
import { Notice } from "@/app/_ui/notice";
import type { PastRoom } from "@/lib/schemas/as-of";

type Logged = NonNullable<PastRoom["logged"]>;

const SAID: Readonly<Record<Logged["agrees"], { tone: "done" | "plain" | "wrong"; text: string }>> = {
  same: { tone: "done", text: "The log and the evidence of that moment say the same." },
  overtaken: {
    tone: "plain",
    text: "The clock had overtaken the log's last line; every board then judged from the evidence, as is done here.",
  },
  "other-rules": {
    tone: "plain",
    text: "The line was written by an earlier version of the rules' code, which judged otherwise.",
  },
  differs: {
    tone: "wrong",
    text: "The log's line differs from what the evidence says. Something was recorded with an earlier time, or a set-up value was changed since.",
  },
};

/** How the stored line of then and today's reading of the evidence of then stand to each other. */
export function LogLine({ logged, at, zone }: { logged: Logged | null; at: string; zone: string }) {
  if (!logged) return <p>The room had not been judged yet.</p>;
  const { tone, text } = SAID[logged.agrees];
  const differs = logged.differences.length > 0 ? ` Differs in: ${logged.differences.join(", ")}.` : "";
  return (
    <Notice
      tone={tone}
      title={`Line of ${whenText(logged.at, at, zone)}, after “${logged.cause.replaceAll("-", " ")}”`}
    >
      <p>
        {text}
        {differs} Rules' code {logged.engine}, settings version {logged.settings}.
      </p>
    </Notice>
  );
}
