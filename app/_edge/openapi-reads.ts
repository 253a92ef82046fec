import type { z } from "zod";
import { board } from "@/lib/schemas/board";
import { checkView } from "@/lib/schemas/check";
import { evidenceDocument } from "@/lib/schemas/evidence";
import { historyPage, historyQuery } from "@/lib/schemas/history";
import { completionQuery, completionReport } from "@/lib/schemas/report";
import { roomView } from "@/lib/schemas/room";
import { peopleView, sessionView } from "@/lib/schemas/set-up";
import { taskDetail, taskList } from "@/lib/schemas/task";

/** A route that reads. `text` is the media type of what is not JSON. */
export interface ReadRoute {
  readonly path: string;
  readonly summary: string;
  readonly query?: z.ZodType;
  readonly reply?: z.ZodType;
  readonly text?: string;
}

export const READS: readonly ReadRoute[] = [
  { path: "/api/v1/session", summary: "Who is signed in, where, and what they may do.", reply: sessionView },
  { path: "/api/v1/board", summary: "Every room of the facility; with an ETag.", reply: board },
  { path: "/api/v1/events", summary: "The stream of changes (server-sent events).", text: "text/event-stream" },
  { path: "/api/v1/rooms/{id}", summary: "One room: answer, reasons, parts, checks, tasks.", reply: roomView },
  {
    path: "/api/v1/rooms/{id}/evidence",
    summary: "The evidence document the judge looks at.",
    reply: evidenceDocument,
  },
  { path: "/api/v1/tasks", summary: "Open tasks in their order.", reply: taskList },
  { path: "/api/v1/tasks/{key}", summary: "One open task with what finishing it asks for.", reply: taskDetail },
  { path: "/api/v1/checks/{id}", summary: "One check: questions, answers, signatures.", reply: checkView },
  {
    path: "/api/v1/history",
    summary: "The record, newest first; of one room or person.",
    query: historyQuery,
    reply: historyPage,
  },
  { path: "/api/v1/people", summary: "The people with their roles here.", reply: peopleView },
  {
    path: "/api/v1/reports/check-completion",
    summary: "Check completion by room and check day.",
    query: completionQuery,
    reply: completionReport,
  },
  {
    path: "/api/v1/reports/check-completion.csv",
    summary: "The same as CSV.",
    query: completionQuery,
    text: "text/csv",
  },
  { path: "/api/v1/imports/templates/{file}", summary: "A template to fill in for the import.", text: "text/csv" },
];
