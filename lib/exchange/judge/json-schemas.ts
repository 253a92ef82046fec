import { z } from "zod";
import { EVIDENCE_SCHEMA } from "@/lib/domain/evidence";
import { evidenceDocument } from "@/lib/schemas/evidence";
import { explainedJudgement, judgement } from "@/lib/schemas/judgement";

/** The shapes of the document and of the answer, as JSON Schema 2020-12. */
export const JSON_SCHEMAS = {
  /** As it is written: what has a default may be left out. */
  evidence: () => named(`Evidence of one room, ${EVIDENCE_SCHEMA}`, z.toJSONSchema(evidenceDocument, { io: "input" })),
  judgement: () => named("What the judge says of a room", z.toJSONSchema(judgement, { io: "output" })),
  explained: () =>
    named("The same, with what can be done about it", z.toJSONSchema(explainedJudgement, { io: "output" })),
} as const;

export type JsonSchemaName = keyof typeof JSON_SCHEMAS;

const named = (title: string, { $schema, ...schema }: object & { $schema?: string }): object => ({
  $schema,
  title,
  ...schema,
});
