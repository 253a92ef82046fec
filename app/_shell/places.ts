/** The places of the product, in the order of the navigation. `needs`: shown to who may do at least one of these. */
export interface Place {
  href: string;
  label: string;
  needs: readonly string[];
}

export const PLACES: readonly Place[] = [
  { href: "/", label: "Rooms", needs: [] },
  { href: "/tasks", label: "To do", needs: [] },
  { href: "/history", label: "History", needs: [] },
  { href: "/reports", label: "Reports", needs: [] },
  { href: "/calculator", label: "Calculator", needs: [] },
  {
    href: "/set-up",
    label: "Set-up",
    needs: ["import-department", "add-person", "add-facility", "set-weekly-template", "propose-rules"],
  },
];

export function placesFor(mayDo: readonly string[]): readonly Place[] {
  return PLACES.filter(({ needs }) => needs.length === 0 || needs.some((command) => mayDo.includes(command)));
}

/** The rooms themselves, and the rooms in time. */
const OF_ROOMS = ["/rooms", "/events", "/allowed", "/moments", "/what-if"] as const;

/** A room belongs to Rooms, a check to the place it was opened from; every other path to the place it begins with. */
export function placeOf(path: string): string | null {
  if (path === "/" || OF_ROOMS.some((begin) => path.startsWith(begin))) return "/";
  return PLACES.find(({ href }) => href !== "/" && (path === href || path.startsWith(`${href}/`)))?.href ?? null;
}

/** A check fills the screen of a phone: its own buttons stand where the places would. */
export function fillsTheScreen(path: string): boolean {
  return path.startsWith("/checks/");
}
