import { AGENTS, GASES, type Scheme } from "@/lib/domain/vocabulary";

export type PartKind = "cylinder" | "vaporizer" | "absorbent" | "oxygen-sensor";

export const PART_KINDS: readonly { kind: PartKind; label: string }[] = [
  { kind: "cylinder", label: "Cylinder" },
  { kind: "vaporizer", label: "Vaporizer" },
  { kind: "absorbent", label: "Absorbent" },
  { kind: "oxygen-sensor", label: "Oxygen sensor" },
];

export interface PartField {
  /** The column of the import's file: by it the server names what is wrong. */
  readonly header: string;
  readonly label: string;
  readonly hint?: string;
  readonly choices?: readonly string[];
  readonly start: string;
}

const YES_NO = ["no", "yes"] as const;
const date = (header: string, label: string): PartField => ({
  header,
  label,
  hint: "Such as 2027-03-31; empty when none",
  start: "",
});

/** What the label of each kind of part says. */
export function partFields(kind: PartKind, scheme: Scheme, pressureUnit: string): readonly PartField[] {
  if (kind === "cylinder") return cylinderFields(scheme, pressureUnit);
  if (kind === "vaporizer")
    return [
      { header: "tag", label: "Tag", start: "" },
      { header: "agent", label: "Agent", choices: AGENTS, start: "sevoflurane" },
      { header: "filler", label: "Filler", hint: "Such as keyed or funnel", start: "keyed" },
      date("calibration due", "Calibration due"),
      date("window to", "At the latest"),
    ];
  if (kind === "absorbent")
    return [
      { header: "tag", label: "Tag", start: "" },
      { header: "product", label: "Product", start: "" },
      { header: "indicator", label: "Has an indicator dye", choices: YES_NO, start: "yes" },
      { header: "reverts", label: "Its colour goes back at rest", choices: YES_NO, start: "no" },
      { header: "strong base", label: "Holds a strong base", choices: YES_NO, start: "no" },
      { header: "litres per 100 g", label: "Takes up, litres per 100 g", start: "" },
      { header: "mass g", label: "Mass, g", start: "" },
    ];
  return [
    { header: "tag", label: "Tag", start: "" },
    { header: "kind", label: "Kind", choices: ["galvanic", "paramagnetic"], start: "galvanic" },
  ];
}

const cylinderFields = (scheme: Scheme, pressureUnit: string): readonly PartField[] => [
  { header: "serial", label: "Serial number", start: "" },
  { header: "gas", label: "Gas", choices: GASES, start: "oxygen" },
  { header: "scheme", label: "Colour scheme", choices: ["US", "ISO"], start: scheme },
  { header: "size", label: "Size", hint: "Such as E", start: "E" },
  { header: "water capacity L", label: "Water capacity, L", hint: "Such as 4.8", start: "" },
  { header: "rated contents L", label: "Rated contents, L", hint: "Such as 660", start: "" },
  { header: "rated pressure", label: "Gauge pressure when full", start: "" },
  { header: "rated pressure unit", label: "in", choices: ["psi", "kPa", "bar"], start: pressureUnit },
  date("expiry", "Expires"),
  date("retest due", "Retest due"),
  { header: "contents", label: "Contents", choices: ["full", "in-use", "empty"], start: "full" },
];
