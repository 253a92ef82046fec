/** What published studies found when faults were planted in anesthesia machines, to hold a rehearsal's own figure against. */
export interface PlantedFaultStudy {
  readonly who: string;
  readonly found: string;
  readonly citation: string;
  /** Share of the planted faults that were found, where the study gives one. */
  readonly share: number | null;
}

export const PLANTED_FAULT_STUDIES: readonly PlantedFaultStudy[] = [
  {
    who: "Visitors of a meeting, own method",
    found: "2.2 of 5 planted faults found on average; 3.4 % found all five",
    citation: "Study of 1982 as told by the APSF in its history of the checkout list",
    share: 0.44,
  },
  {
    who: "Anesthesiologists, own method",
    found: "25.8 % of the planted faults found",
    citation: "March and Crowley 1991, Anesthesiology (abstract)",
    share: 0.258,
  },
  {
    who: "The same, with the published list of that time in hand",
    found: "29.9 % of the planted faults found",
    citation: "March and Crowley 1991, Anesthesiology (abstract)",
    share: 0.299,
  },
  {
    who: "Anesthetists of one country, six faults",
    found: "none of 13 found all six",
    citation: "Internet Journal of Anesthesiology 27:2 (abstract)",
    share: null,
  },
];
