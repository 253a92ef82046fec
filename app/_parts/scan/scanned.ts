/** What a code on a workstation holds: its number as it stands on the label, or the link to its own page. */
export type Scanned = { readonly by: "number"; readonly number: string } | { readonly by: "id"; readonly id: string };

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i;
/** Longer than any number that is written on a label; a code of the maker's may hold a whole text. */
const LONGEST_NUMBER = 60;

/** The path of a workstation's own page; what its label's code holds stands behind the site's address. */
export const workstationPath = (id: string): string => `/workstations/${id}`;

/**
 * What was scanned, or null where it is neither. The address before the path is not looked at: labels outlive addresses, and who is
 * found is looked up among the site's own workstations anyway.
 */
export function readScanned(text: string): Scanned | null {
  const said = text.trim();
  if (/^https?:\/\//i.test(said)) {
    const id = idInPath(said);
    return id === null ? null : { by: "id", id };
  }
  if (said === "" || said.length > LONGEST_NUMBER || /[\p{Cc}]/u.test(said)) return null;
  return { by: "number", number: said };
}

function idInPath(address: string): string | null {
  if (!URL.canParse(address)) return null;
  const [, place, id, ...more] = new URL(address).pathname.split("/");
  if (place !== "workstations" || id === undefined || more.some((part) => part !== "") || !UUID.test(id)) return null;
  return id.toLowerCase();
}
