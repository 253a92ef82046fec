/** What a facility chooses between; the same on both forms. */
export const SCHEMES = [
  { value: "US", label: "US" },
  { value: "ISO", label: "ISO / UK" },
] as const;
export const UNITS = [
  { value: "psi", label: "psi" },
  { value: "kPa", label: "kPa" },
  { value: "bar", label: "bar" },
] as const;
