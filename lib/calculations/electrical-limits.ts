/**
 * Limits of electrical safety tests, each of one standard in one edition. Editions measure different things under like names (300 uA is
 * a chassis leakage of 2005, 100 uA a touch current of 2012): a limit is never borrowed from another edition.
 */
export const ELECTRICAL_STANDARDS = ["nfpa-99-2005", "nfpa-99-2012", "iec-62353-2014"] as const;
export type ElectricalStandard = (typeof ELECTRICAL_STANDARDS)[number];

export const STANDARD_NAMES: Readonly<Record<ElectricalStandard, string>> = {
  "nfpa-99-2005": "NFPA 99, edition 2005",
  "nfpa-99-2012": "NFPA 99, edition 2012",
  "iec-62353-2014": "IEC 62353:2014",
};

export const ELECTRICAL_TESTS = [
  "chassis-leakage",
  "touch-current",
  "patient-lead-leakage",
  "ground-resistance",
  "protective-earth-resistance",
  "equipment-leakage",
  "applied-part-leakage",
  "insulation-resistance",
] as const;
export type ElectricalTest = (typeof ELECTRICAL_TESTS)[number];

/** What must be known beside the reading, and the answers there are. */
export const CONDITION_CHOICES = {
  ground: ["intact", "open"],
  leads: ["ordinary", "isolated"],
  measured: ["device-with-cord", "device-only", "cord-only"],
  method: ["alternative", "direct", "differential"],
  class: ["I", "II"],
  appliedPart: ["B", "BF", "CF"],
} as const;
export type ConditionName = keyof typeof CONDITION_CHOICES;
export type Conditions = { readonly [Name in ConditionName]?: (typeof CONDITION_CHOICES)[Name][number] };

export type ElectricalUnit = "uA" | "ohm" | "mohm" | "Mohm";

export interface ElectricalLimit {
  readonly standard: ElectricalStandard;
  readonly test: ElectricalTest;
  /** The conditions under which this limit holds; all of them must be given. */
  readonly when: Conditions;
  readonly unit: ElectricalUnit;
  readonly bound: "at-most" | "below" | "at-least";
  readonly limit: number;
  /** Beyond the limit but not beyond this: allowed on conditions. */
  readonly conditional?: { readonly upTo: number; readonly conditions: string };
  readonly source: string;
}

const NFPA_2005 = "trade press on NFPA 99-2005 (secondary)";
const NFPA_2012 = "NFPA 99-2012, from memory";
const IEC = "IEC 62353:2014, excerpt";
const IEC_MEMORY = "IEC 62353:2014, from memory";

type Row = Omit<ElectricalLimit, "standard" | "test" | "unit" | "bound" | "source">;
type Head = Pick<ElectricalLimit, "standard" | "test" | "unit" | "bound" | "source">;
const rows = (head: Head, own: readonly Row[]): ElectricalLimit[] => own.map((row) => ({ ...head, ...row }));

export const ELECTRICAL_LIMITS: readonly ElectricalLimit[] = [
  ...rows({ standard: "nfpa-99-2005", test: "chassis-leakage", unit: "uA", bound: "at-most", source: NFPA_2005 }, [
    {
      when: {},
      limit: 300,
      conditional: {
        upTo: 500,
        conditions: "existing or special equipment, with its ground intact and a documented program of testing",
      },
    },
  ]),
  ...rows({ standard: "nfpa-99-2005", test: "ground-resistance", unit: "ohm", bound: "below", source: NFPA_2005 }, [
    { when: {}, limit: 0.5 },
  ]),
  ...rows({ standard: "nfpa-99-2012", test: "ground-resistance", unit: "ohm", bound: "below", source: NFPA_2012 }, [
    { when: {}, limit: 0.5 },
  ]),
  ...rows({ standard: "nfpa-99-2012", test: "touch-current", unit: "uA", bound: "at-most", source: NFPA_2012 }, [
    { when: { ground: "intact" }, limit: 100 },
    { when: { ground: "open" }, limit: 500 },
  ]),
  ...rows({ standard: "nfpa-99-2012", test: "patient-lead-leakage", unit: "uA", bound: "at-most", source: NFPA_2012 }, [
    { when: { leads: "ordinary" }, limit: 100 },
    { when: { leads: "isolated", ground: "intact" }, limit: 10 },
    { when: { leads: "isolated", ground: "open" }, limit: 50 },
  ]),
  ...rows(
    { standard: "iec-62353-2014", test: "protective-earth-resistance", unit: "mohm", bound: "at-most", source: IEC },
    [
      { when: { measured: "device-with-cord" }, limit: 300 },
      { when: { measured: "device-only" }, limit: 200 },
      { when: { measured: "cord-only" }, limit: 100 },
    ],
  ),
  ...rows({ standard: "iec-62353-2014", test: "equipment-leakage", unit: "uA", bound: "at-most", source: IEC_MEMORY }, [
    { when: { method: "alternative", class: "I" }, limit: 1_000 },
    { when: { method: "alternative", class: "II" }, limit: 500 },
    { when: { method: "direct", class: "I" }, limit: 500 },
    { when: { method: "direct", class: "II" }, limit: 100 },
    { when: { method: "differential", class: "I" }, limit: 500 },
    { when: { method: "differential", class: "II" }, limit: 100 },
  ]),
  ...rows(
    { standard: "iec-62353-2014", test: "applied-part-leakage", unit: "uA", bound: "at-most", source: IEC_MEMORY },
    [
      { when: { appliedPart: "BF" }, limit: 5_000 },
      { when: { appliedPart: "CF" }, limit: 50 },
    ],
  ),
  ...rows(
    {
      standard: "iec-62353-2014",
      test: "insulation-resistance",
      unit: "Mohm",
      bound: "at-least",
      source: `${IEC_MEMORY}; compare the document before relying on it`,
    },
    [
      { when: { class: "I" }, limit: 2 },
      { when: { class: "II" }, limit: 7 },
    ],
  ),
];
