import { rejudgeDue } from "@/lib/commands/rejudge";
import { readBoardOf, readBoardRows } from "@/lib/queries/board";
import type { Database, Scope } from "@/lib/storage/client";
import { facilityScopes } from "@/lib/storage/sessions";
import type { Instant } from "@/lib/units/time";
import type { BoardSource } from "./source";

/** The board as the database has it, on the facility's clock. */
export function databaseSource(database: Database, now: () => Instant): BoardSource {
  const scopes = new Map<string, Scope>();
  const reading = { database, now };

  async function scopeOf(facilityId: string): Promise<Scope> {
    if (!scopes.has(facilityId)) {
      for (const scope of await facilityScopes(database)) scopes.set(scope.facilityId, scope);
    }
    const scope = scopes.get(facilityId);
    if (!scope) throw new Error(`there is no facility ${facilityId}`);
    return scope;
  }

  return {
    readBoard: async (facilityId) => readBoardOf(await scopeOf(facilityId), reading),
    readRows: async (facilityId, roomIds) => readBoardRows(await scopeOf(facilityId), roomIds, reading),
    rejudgeDue: async (facilityId) => void (await rejudgeDue(database, { now }, await scopeOf(facilityId))),
  };
}
