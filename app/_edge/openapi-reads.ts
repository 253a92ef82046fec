import type { z } from "zod";
import { onDeviceView } from "@/lib/schemas/access";
import { allowancesView } from "@/lib/schemas/allowances";
import { momentQuery, morningQuery, pastBoard, pastDay, pastRoomView } from "@/lib/schemas/as-of";
import { board } from "@/lib/schemas/board";
import { checkView } from "@/lib/schemas/check";
import { devicesView } from "@/lib/schemas/devices";
import { dutyQuery, dutyView } from "@/lib/schemas/duty";
import { eventsView, eventView, openEventsView } from "@/lib/schemas/events";
import { evidenceDocument } from "@/lib/schemas/evidence";
import { historyPage, historyQuery } from "@/lib/schemas/history";
import { exportQuery, headsView, historyExport } from "@/lib/schemas/history-export";
import { messagesView } from "@/lib/schemas/messages";
import { emergencyQuery, emergencyReport, sparePartsView, sparesView } from "@/lib/schemas/moves";
import { placesView } from "@/lib/schemas/places";
import { proceduresView } from "@/lib/schemas/procedure";
import { rehearsalQuery, rehearsalView } from "@/lib/schemas/rehearsal";
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
import { whatIfQuery, whatIfView } from "@/lib/schemas/what-if";
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
  {
    path: "/api/v1/rehearsal",
    summary: "A daily check on an imagined workstation with planted faults, to practise; nothing of it is a record.",
    query: rehearsalQuery,
    reply: rehearsalView,
  },
  {
    path: "/api/v1/downtime",
    summary: "The morning on paper: every room and a check sheet each.",
    text: "application/pdf",
  },
  { path: "/api/v1/duty", summary: "The duty roster of a day.", query: dutyQuery, reply: dutyView },
  { path: "/api/v1/checks", summary: "Today's open checks: your own, and others'.", reply: openChecksView },
  { path: "/api/v1/checks/{id}", summary: "One check: questions, answers, signatures.", reply: checkView },
  {
    path: "/api/v1/workstations/{id}/check-start",
    summary: "A daily check as it would begin now: what a device keeps, to begin it where no server is reached.",
    reply: checkView,
  },
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
  {
    path: "/api/v1/set-up/procedures",
    summary: "Each kind of check: the version in force, the one that waits, and the draft of the next one.",
    reply: proceduresView,
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
  { path: "/api/v1/open-events", summary: "Events that are open now, one line each.", reply: openEventsView },
  { path: "/api/v1/department-events", summary: "Events, and where one can happen.", reply: eventsView },
  {
    path: "/api/v1/department-events/{id}",
    summary: "One event: its card, and each room it touches.",
    reply: eventView,
  },
  {
    path: "/api/v1/messages",
    summary: "What you were asked to see to, and the ways by which you are reached.",
    reply: messagesView,
  },
  {
    path: "/api/v1/allowances",
    summary: "Everything allowed with a limit, and vapor-free preparations.",
    reply: allowancesView,
  },
  {
    path: "/api/v1/moments/day",
    summary: "How rooms stood over one check day, by the log.",
    query: morningQuery,
    reply: pastDay,
  },
  {
    path: "/api/v1/moments/board",
    summary: "All rooms as they were known at a past moment.",
    query: momentQuery,
    reply: pastBoard,
  },
  {
    path: "/api/v1/moments/rooms/{id}",
    summary: "One room as it was known at a past moment.",
    query: momentQuery,
    reply: pastRoomView,
  },
  {
    path: "/api/v1/what-if",
    summary: "What would become of the rooms; nothing is written.",
    query: whatIfQuery,
    reply: whatIfView,
  },
  { path: "/api/v1/session/people", summary: "Whom this browser's PIN pad offers.", reply: onDeviceView },
  {
    path: "/api/v1/history/heads",
    summary: "The newest signed tree heads, and the keys that signed them.",
    reply: headsView,
  },
  {
    path: "/api/v1/history/export",
    summary: "The record with everything that proves it, whole or in part.",
    query: exportQuery,
    reply: historyExport,
  },
];
