import { z } from "zod";

/** RFC 9457 problem details, with the fields that are wrong where there are any. */
export const problemDetails = z.looseObject({
  type: z.string(),
  title: z.string(),
  status: z.int(),
  detail: z.string(),
  errors: z.array(z.looseObject({ field: z.string(), value: z.unknown().optional(), message: z.string() })).optional(),
});
