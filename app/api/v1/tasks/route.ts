import type { NextRequest } from "next/server";
import { serveRead } from "@/app/_edge/serve-read";
import { readTasks } from "@/lib/queries/tasks";

export const GET = (request: NextRequest): Promise<Response> => serveRead(request, "list of tasks", readTasks);
