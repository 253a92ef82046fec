import type { Actor } from "@/lib/auth/actor";
import { checkDayAt } from "@/lib/domain/check-day";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { wordsOf } from "@/lib/domain/site/model";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import type { DevicesView } from "@/lib/schemas/devices";
import { type PlacesView, placesView } from "@/lib/schemas/places";
import type { SiteView } from "@/lib/schemas/site";
import type { WeekView } from "@/lib/schemas/weekly";
import { wallDevices } from "@/lib/storage/devices";
import { listsOn, weeklyTemplates } from "@/lib/storage/lists";
import { loadSetUp } from "@/lib/storage/set-up";
import { loadSite } from "@/lib/storage/site";
import { timestampOf, weekday } from "@/lib/units/time";

/** Places and equipment as the set-up shows them. */
export const readPlaces = (actor: Actor, reading: Reading = appReading()): Promise<PlacesView> =>
  inFacility(
    actor,
    async (tx, { scope }) => {
      const known = await loadSetUp(tx, scope);
      const count = (modelId: string) =>
        known.workstations.filter((one) => one.modelId === modelId && !one.retired).length;
      const models = known.models.map(({ id, name, maker, document: { settings: _, ...document } }) => ({
        ...document,
        id,
        name,
        maker,
        workstations: count(id),
      }));
      const workstations = known.workstations.map(({ parts, ...rest }) => ({
        ...rest,
        parts: parts.map(({ itemId: _, ...part }) => part),
      }));
      return placesView.parse({ ...known, models, workstations });
    },
    reading,
  );

/** Each room's week, and today's list where the day has one of its own. */
export const readWeek = (actor: Actor, reading: Reading = appReading()): Promise<WeekView> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      const { scope } = frame;
      const today = checkDayAt(checkClock(frame), now).date;
      const { rooms, suites } = await loadSetUp(tx, scope);
      const days = await weeklyTemplates(tx, scope.facilityId);
      const lists = await listsOn(tx, scope.facilityId, today);
      return {
        today,
        weekday: weekday(today) || 7,
        rooms: rooms
          .filter(({ retired }) => !retired)
          .map(({ id, name, suiteId }) => {
            const list = lists.find(({ roomId }) => roomId === id);
            return {
              id,
              name,
              suite: suites.find((suite) => suite.id === suiteId)?.name ?? "",
              days: days
                .filter(({ roomId }) => roomId === id)
                .map(({ weekday: on, closed, ...day }) => ({ weekday: on, closed, ...shown(day) })),
              list: list ? shown(list) : null,
            };
          }),
        at: timestampOf(now),
      };
    },
    reading,
  );

const shown = ({
  firstCase,
  ends,
  needs,
  setUpMinutes,
}: Pick<Awaited<ReturnType<typeof listsOn>>[number], "firstCase" | "ends" | "needs" | "setUpMinutes">) => ({
  firstCase,
  ends,
  needs: [...needs],
  setUpMinutes,
});

/** The screens on walls, with who registered them and when each was last seen. */
export const readDevices = (actor: Actor, reading: Reading = appReading()): Promise<DevicesView> =>
  inFacility(
    actor,
    async (tx, { scope }, now) => ({ devices: await wallDevices(tx, scope.facilityId), at: timestampOf(now) }),
    reading,
  );

/** The facility's own row: clock, scheme, unit and words. */
export const readSite = (actor: Actor, reading: Reading = appReading()): Promise<SiteView> =>
  inFacility(
    actor,
    async (tx, { scope }) => {
      const { now, words, checks } = await loadSite(tx, scope);
      return { ...now, words: wordsOf(now.scheme, words), checks };
    },
    reading,
  );
