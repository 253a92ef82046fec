import { z } from "zod";
import { READS, type ReadRoute } from "@/app/_edge/openapi-reads";
import { COMMANDS } from "@/lib/commands/all";
import { PERMISSIONS } from "@/lib/domain/permission";
import { givenSignature, lockReply, lockRequest, unlockRequest } from "@/lib/schemas/access";
import { saveDraftReply, saveDraftRequest } from "@/lib/schemas/check";
import { problemDetails } from "@/lib/schemas/problem";
import { rehearsalAnswers, rehearsalResultView } from "@/lib/schemas/rehearsal";
import {
  addFacilityReply,
  addFacilityRequest,
  changeFacilityRequest,
  importPreview,
  importRequest,
} from "@/lib/schemas/set-up";

type Json = Readonly<Record<string, unknown>>;

/** zod's JSON Schema of what travels on the wire. */
const schemaOf = (schema: z.ZodType, io: "input" | "output" = "output"): Json => {
  const { $schema: _dialect, ...rest } = z.toJSONSchema(schema, { io, unrepresentable: "any" }) as Record<
    string,
    unknown
  >;
  return rest;
};

const json = (schema: Json): Json => ({ content: { "application/json": { schema } } });
const problem = (description: string): Json => ({
  description,
  content: { "application/problem+json": { schema: { $ref: "#/components/schemas/Problem" } } },
});

const REFUSALS: Json = {
  "401": problem("Not signed in, or the session has ended"),
  "403": problem("Not allowed for this person, or not from here"),
  "404": problem("No such thing in this facility"),
};
const WRITE_REFUSALS: Json = {
  ...REFUSALS,
  "400": problem("Not JSON, or a bad Idempotency-Key"),
  "409": problem("It has moved on, is done already, or somebody else has it"),
  "415": problem("Not application/json"),
  "422": problem("A field is not right: which, its value, and what would be"),
  "423": problem("The screen is locked"),
  "429": problem("Too often, or too many wrong attempts; Retry-After says for how long"),
};

const KEY: Json = {
  name: "Idempotency-Key",
  in: "header",
  required: false,
  description:
    "New for every new request; the same key with the same body gets the same reply and changes nothing again.",
  schema: { type: "string", minLength: 8, maxLength: 128 },
};

interface Write {
  readonly path: string;
  readonly summary: string;
  readonly request: z.ZodType;
  readonly reply: z.ZodType;
  readonly roles?: readonly string[];
  readonly keyed: boolean;
  /** A signature: what it is given with stands beside the input. */
  readonly signed?: boolean;
}

const writes = (): Write[] => [
  ...COMMANDS.map(({ name, summary, schema, replySchema, meaning }) => ({
    path: `/api/v1/commands/${name}`,
    summary,
    request: schema,
    reply: replySchema,
    roles: PERMISSIONS[name],
    keyed: true,
    signed: meaning !== undefined,
  })),
  {
    path: "/api/v1/commands/save-draft",
    summary: "Keep what is being typed into a check.",
    request: saveDraftRequest,
    reply: saveDraftReply,
    roles: PERMISSIONS["save-draft"],
    keyed: false,
  },
  {
    path: "/api/v1/commands/add-facility",
    summary: "Add a facility to the organisation.",
    request: addFacilityRequest,
    reply: addFacilityReply,
    roles: PERMISSIONS["add-facility"],
    keyed: false,
  },
  {
    path: "/api/v1/imports/preview",
    summary: "Say what an import would do, row by row, without doing it.",
    request: importRequest,
    reply: importPreview,
    roles: PERMISSIONS["import-department"],
    keyed: false,
  },
  {
    path: "/api/v1/rehearsal/result",
    summary: "What was found of the faults planted in a rehearsal. Nothing is written.",
    request: rehearsalAnswers,
    reply: rehearsalResultView,
    keyed: false,
  },
  {
    path: "/api/v1/session",
    summary: "Move the session to another facility of the same person.",
    request: changeFacilityRequest,
    reply: changeFacilityRequest,
    keyed: false,
  },
  {
    path: "/api/v1/session/lock",
    summary: "Lock the screen: nothing is read or written until it is unlocked.",
    request: lockRequest,
    reply: lockReply,
    keyed: false,
  },
  {
    path: "/api/v1/session/unlock",
    summary: "Unlock the screen with the PIN or password of the person whose session it is.",
    request: unlockRequest,
    reply: lockReply,
    keyed: false,
  },
];

/** The request of a signature: its input, and beside it what the person gave. */
function requestOf({ request, signed }: Write): Json {
  const input = schemaOf(request, "input");
  if (!signed) return input;
  const properties = (input.properties ?? {}) as Json;
  return { ...input, properties: { ...properties, signature: schemaOf(givenSignature, "input") } };
}

const UNSIGNED: Json = { "428": problem("A signature is missing: who signs, what it says, what is asked for") };

const writeOperation = (write: Write): Json => {
  const { summary, reply, roles, keyed, signed } = write;
  return {
    summary,
    ...(roles ? { description: `For: ${roles.join(", ")}.` } : {}),
    ...(keyed ? { parameters: [KEY] } : {}),
    requestBody: { required: true, ...json(requestOf(write)) },
    responses: {
      "200": { description: "Done", ...json(schemaOf(reply)) },
      ...WRITE_REFUSALS,
      ...(signed ? UNSIGNED : {}),
    },
  };
};

const readOperation = ({ summary, path, query, reply, text }: ReadRoute): Json => ({
  summary,
  parameters: [
    ...[...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => ({
      name,
      in: "path",
      required: true,
      schema: { type: "string" },
    })),
    ...(query ? queryParameters(query) : []),
  ],
  responses: {
    "200": {
      description: "As it is now",
      ...(reply ? json(schemaOf(reply)) : { content: { [text ?? "text/plain"]: { schema: { type: "string" } } } }),
    },
    ...REFUSALS,
  },
});

function queryParameters(query: z.ZodType): Json[] {
  const { properties = {}, required = [] } = schemaOf(query, "input") as {
    properties?: Record<string, Json>;
    required?: string[];
  };
  return Object.entries(properties).map(([name, schema]) => ({
    name,
    in: "query",
    required: required.includes(name),
    schema,
  }));
}

/** OpenAPI 3.1 from the zod schemas: nothing in it is written twice. */
export function openApi(): Json {
  const paths: Record<string, Record<string, Json>> = {};
  for (const read of READS) paths[read.path] = { ...paths[read.path], get: readOperation(read) };
  for (const write of writes()) paths[write.path] = { ...paths[write.path], post: writeOperation(write) };
  return {
    openapi: "3.1.0",
    info: {
      title: "Yokeboard",
      version: "1",
      description:
        "Readiness of anesthesia workstations. A record and planning aid, not a medical device. Sign in first; the session is the cookie of the pages. A program sends a token: Authorization: Bearer.",
    },
    paths,
    components: { schemas: { Problem: schemaOf(problemDetails) } },
  };
}
