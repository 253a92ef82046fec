import type { z } from "zod";
import { board } from "@/lib/schemas/board";
import { checkView } from "@/lib/schemas/check";
import { devicesView } from "@/lib/schemas/devices";
import { dutyQuery, dutyView } from "@/lib/schemas/duty";
import { evidenceDocument } from "@/lib/schemas/evidence";
import { historyPage, historyQuery } from "@/lib/schemas/history";
import { emergencyQuery, emergencyReport, sparePartsView, sparesView } from "@/lib/schemas/moves";
import { placesView } from "@/lib/schemas/places";
import { completionQuery, completionReport } from "@/lib/schemas/report";
import { readyByReport } from "@/lib/schemas/report-ready-by";
import { reasonsReport } from "@/lib/schemas/report-reasons";
import { shiftQuery, shiftSheet } from "@/lib/schemas/report-shift";
import { roomView } from "@/lib/schemas/room";
import { rulesView } from "@/lib/schemas/rules";
import { peopleView, sessionView } from "@/lib/schemas/set-up";
import { siteView } from "@/lib/schemas/site";
import { taskDetail, taskList } from "@/lib/schemas/task";
import { wallBoard } from "@/lib/schemas/wall";
import { weekView } from "@/lib/schemas/weekly";
import { openChecksView, pickList, pickListQuery } from "@/lib/schemas/work";

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
  { path: "/api/v1/wall", summary: "Every room as a wall shows it: without names.", reply: wallBoard },
  { path: "/api/v1/wall/events", summary: "The stream of a wall, without names.", text: "text/event-stream" },
  { path: "/api/v1/rooms/{id}", summary: "One room: answer, reasons, parts, checks, tasks.", reply: roomView },
  {
    path: "/api/v1/rooms/{id}/evidence",
    summary: "The evidence document the judge looks at.",
    reply: evidenceDocument,
  },
  {
    path: "/api/v1/rooms/{id}/spares",
    summary:
      "Spare workstations for a room: which fit its list, what each owes on arrival, and the others with why not.",
    reply: sparesView,
  },
  {
    path: "/api/v1/rooms/{id}/spare-parts",
    summary: "Vaporizers, absorbent and oxygen sensors that could be fitted to the workstation of a room.",
    reply: sparePartsView,
  },
  { path: "/api/v1/tasks", summary: "Open tasks in their order.", reply: taskList },
  { path: "/api/v1/tasks/{key}", summary: "One open task with what finishing it asks for.", reply: taskDetail },
  { path: "/api/v1/pick-list", summary: "Several tasks as one walk.", query: pickListQuery, reply: pickList },
  { path: "/api/v1/duty", summary: "The duty roster of a day.", query: dutyQuery, reply: dutyView },
  { path: "/api/v1/checks", summary: "Today's open checks: your own, and others'.", reply: openChecksView },
  { path: "/api/v1/checks/{id}", summary: "One check: questions, answers, signatures.", reply: checkView },
  {
    path: "/api/v1/history",
    summary: "The record, newest first; of one room or person.",
    query: historyQuery,
    reply: historyPage,
  },
  {
    path: "/api/v1/set-up/places",
    summary: "Suites, zones, stores, rooms, models and workstations, with what hangs on them.",
    reply: placesView,
  },
  { path: "/api/v1/set-up/week", summary: "Each room's weekly template, and today's own list.", reply: weekView },
  {
    path: "/api/v1/set-up/rules",
    summary: "Every rule with its settings, what came of it, and the changes proposed.",
    reply: rulesView,
  },
  { path: "/api/v1/set-up/devices", summary: "The wall devices.", reply: devicesView },
  { path: "/api/v1/set-up/site", summary: "The facility's clock, scheme, unit and words.", reply: siteView },
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
  {
    path: "/api/v1/reports/ready-by",
    summary: "When each room could start, against its first case, morning by morning.",
    query: completionQuery,
    reply: readyByReport,
  },
  {
    path: "/api/v1/reports/reasons",
    summary: "What the rules said, how often, where, and how long until it was gone.",
    query: completionQuery,
    reply: reasonsReport,
  },
  {
    path: "/api/v1/reports/shift-sheet",
    summary: "What the last hours leave to the next shift.",
    query: shiftQuery,
    reply: shiftSheet,
  },
  {
    path: "/api/v1/reports/emergency-use",
    summary: "Cases that began in rooms that might not start.",
    query: emergencyQuery,
    reply: emergencyReport,
  },
  { path: "/api/v1/imports/templates/{file}", summary: "A template to fill in for the import.", text: "text/csv" },
];
