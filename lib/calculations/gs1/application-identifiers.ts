/** What the value of an application identifier means beyond its characters. */
export type Gs1Meaning = "date" | "date-time" | "date-range" | "check-digit" | "piece-of-total";

export interface ApplicationIdentifier {
  readonly ai: string;
  readonly title: string;
  /** Components: n digits or an characters, a number for a fixed length, ..number for "up to". */
  readonly format: string;
  readonly meaning?: Gs1Meaning;
  /** For "check-digit" and "piece-of-total": how many leading digits the check digit closes. */
  readonly checked?: number;
  /** Digits after the decimal point, for measures whose identifier ends in that number. */
  readonly decimals?: number;
}

type Row = readonly [ai: string, title: string, format: string, meaning?: Gs1Meaning, checked?: number];

/**
 * The application identifiers that are known by name.
 * Source: GS1 General Specifications, section 3 (from memory); 01, 10, 11, 17, 21 and 240 also seen in public barcode documentation.
 */
const ROWS: readonly Row[] = [
  ["00", "serial shipping container code", "n18", "check-digit", 18],
  ["01", "trade item number (GTIN)", "n14", "check-digit", 14],
  ["02", "GTIN of the contained items", "n14", "check-digit", 14],
  ["03", "GTIN of a made-to-order item", "n14", "check-digit", 14],
  ["10", "batch or lot", "an..20"],
  ["11", "production date", "n6", "date"],
  ["12", "payment due date", "n6", "date"],
  ["13", "packaging date", "n6", "date"],
  ["15", "best before date", "n6", "date"],
  ["16", "sell by date", "n6", "date"],
  ["17", "expiration date", "n6", "date"],
  ["20", "product variant", "n2"],
  ["21", "serial number", "an..20"],
  ["22", "consumer product variant", "an..20"],
  ["235", "third-party serial extension of the GTIN", "an..28"],
  ["240", "additional product identification", "an..30"],
  ["241", "customer part number", "an..30"],
  ["242", "made-to-order variation", "n..6"],
  ["243", "packaging component number", "an..20"],
  ["250", "secondary serial number", "an..30"],
  ["251", "reference to the source entity", "an..30"],
  ["253", "document type identifier", "n13+an..17", "check-digit", 13],
  ["254", "extension of the location number", "an..20"],
  ["255", "coupon number", "n13+n..12", "check-digit", 13],
  ["30", "variable count", "n..8"],
  ["37", "count of contained items", "n..8"],
  ["400", "customer order number", "an..30"],
  ["401", "consignment number", "an..30"],
  ["402", "shipment number", "n17", "check-digit", 17],
  ["403", "routing code", "an..30"],
  ["410", "ship to: location number", "n13", "check-digit", 13],
  ["411", "bill to: location number", "n13", "check-digit", 13],
  ["412", "purchased from: location number", "n13", "check-digit", 13],
  ["413", "ship for: location number", "n13", "check-digit", 13],
  ["414", "location number (GLN)", "n13", "check-digit", 13],
  ["415", "invoicing party: location number", "n13", "check-digit", 13],
  ["416", "production or service location number", "n13", "check-digit", 13],
  ["417", "party location number", "n13", "check-digit", 13],
  ["420", "ship to: postal code", "an..20"],
  ["421", "ship to: country and postal code", "n3+an..9"],
  ["422", "country of origin", "n3"],
  ["423", "countries of initial processing", "n3+n..12"],
  ["424", "country of processing", "n3"],
  ["425", "countries of disassembly", "n3+n..12"],
  ["426", "country of the full process", "n3"],
  ["427", "subdivision of origin", "an..3"],
  ["7001", "NATO stock number", "n13"],
  ["7002", "meat cut classification", "an..30"],
  ["7003", "expiration date and time", "n10", "date-time"],
  ["7004", "active potency", "n..4"],
  ["7005", "catch area", "an..12"],
  ["7006", "first freeze date", "n6", "date"],
  ["7007", "harvest date", "n6+n..6", "date-range"],
  ["7008", "aquatic species", "an..3"],
  ["7009", "fishing gear", "an..10"],
  ["7010", "production method", "an..2"],
  ["7011", "test by date", "n6+n..4", "date-time"],
  ["7020", "refurbishment lot", "an..20"],
  ["7021", "functional status", "an..20"],
  ["7022", "revision status", "an..20"],
  ["7023", "asset identifier of an assembly", "an..30"],
  ["710", "national healthcare number, Germany", "an..20"],
  ["711", "national healthcare number, France", "an..20"],
  ["712", "national healthcare number, Spain", "an..20"],
  ["713", "national healthcare number, Brazil", "an..20"],
  ["714", "national healthcare number, Portugal", "an..20"],
  ["715", "national healthcare number, United States", "an..20"],
  ["716", "national healthcare number, Italy", "an..20"],
  ["7240", "protocol", "an..20"],
  ["8001", "roll product dimensions", "n14"],
  ["8002", "mobile telephone serial", "an..20"],
  ["8003", "returnable asset (GRAI)", "n14+an..16", "check-digit", 14],
  ["8004", "individual asset (GIAI)", "an..30"],
  ["8005", "price per unit", "n6"],
  ["8006", "piece of a trade item (ITIP)", "n18", "piece-of-total", 14],
  ["8007", "bank account", "an..34"],
  ["8008", "production date and time", "n8+n..4", "date-time"],
  ["8009", "optical sensor indicator", "an..50"],
  ["8010", "component or part", "an..30"],
  ["8011", "serial of a component or part", "n..12"],
  ["8012", "software version", "an..20"],
  ["8013", "model number (GMN)", "an..25"],
  ["8017", "service relation, provider", "n18", "check-digit", 18],
  ["8018", "service relation, recipient", "n18", "check-digit", 18],
  ["8019", "service relation instance", "n..10"],
  ["8020", "payment slip reference", "an..25"],
  ["8026", "piece of contained trade items", "n18", "piece-of-total", 14],
  ["8110", "coupon code", "an..70"],
  ["8111", "loyalty points", "n4"],
  ["8112", "paperless coupon code", "an..70"],
  ["8200", "extended packaging address", "an..70"],
  ["90", "agreed between partners", "an..30"],
  ...["91", "92", "93", "94", "95", "96", "97", "98", "99"].map((ai): Row => [ai, "company internal", "an..90"]),
];

/** Measures: three digits name the measure, the fourth the decimals. Source: as above. */
const MEASURES: readonly (readonly [from: number, to: number, format: string, title: string])[] = [
  [310, 316, "n6", "trade measure, metric"],
  [320, 329, "n6", "trade measure"],
  [330, 337, "n6", "logistic measure, metric"],
  [340, 357, "n6", "measure, imperial"],
  [360, 369, "n6", "volume, imperial"],
  [390, 390, "n..15", "amount payable"],
  [392, 392, "n..15", "price of a variable item"],
  [395, 395, "n6", "amount per unit"],
];

const KNOWN = new Map(
  ROWS.map(([ai, title, format, meaning, checked]): [string, ApplicationIdentifier] => [
    ai,
    { ai, title, format, ...(meaning && { meaning }), ...(checked && { checked }) },
  ]),
);

/** What an identifier means; null when it is not known here. */
export function applicationIdentifier(ai: string): ApplicationIdentifier | null {
  const known = KNOWN.get(ai);
  if (known) return known;
  return measureOf(ai);
}

function measureOf(ai: string): ApplicationIdentifier | null {
  if (!/^3\d{3}$/.test(ai)) return null;
  const measure = Number(ai.slice(0, 3));
  const row = MEASURES.find(([from, to]) => measure >= from && measure <= to);
  return row ? { ai, title: row[3], format: row[2], decimals: Number(ai[3]) } : null;
}

/** How many digits an identifier has, by its first two: GS1 General Specifications 7.8 (from memory). Two where nothing is said. */
export function identifierLength(firstTwo: string): number {
  if (/^(31|32|33|34|35|36|39|43|70|72|80|81|82)$/.test(firstTwo)) return 4;
  return /^(23|24|25|40|41|42|71)$/.test(firstTwo) ? 3 : 2;
}

/**
 * Length of identifier and value together for the identifiers that need no separator after them, by their first two digits.
 * Source: GS1 General Specifications, element strings with predefined length (from memory).
 */
export function predefinedLength(firstTwo: string): number | null {
  if (firstTwo === "00") return 20;
  if (/^0[1-3]$/.test(firstTwo) || firstTwo === "41") return 16;
  if (firstTwo === "04") return 18;
  if (/^1[1-9]$/.test(firstTwo)) return 8;
  if (firstTwo === "20") return 4;
  return /^3[1-6]$/.test(firstTwo) ? 10 : null;
}
