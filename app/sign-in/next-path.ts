/** Where to go after signing in: a path of this site only, so that a crafted link cannot lead anywhere else. */
export function nextPath(wanted: string | string[] | undefined): string {
  const path = Array.isArray(wanted) ? wanted[0] : wanted;
  if (!path?.startsWith("/") || path.startsWith("//") || path.includes("\\") || path.startsWith("/sign-in")) return "/";
  return path;
}
