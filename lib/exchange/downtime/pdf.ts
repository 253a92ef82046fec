import { READINESS_NAMES } from "@/lib/domain/wording";
import { BOLD, beginPdf, endPdf, innerWidth, MARGIN, type Pdf, PLAIN } from "@/lib/exchange/pdf/document";
import { type PdfCell, pdfTable } from "@/lib/exchange/pdf/table";
import type { DowntimeView, PrintedRoom, PrintedSheet } from "@/lib/schemas/downtime";
import { dateIn, instantOf, timeIn } from "@/lib/units/time";

const CAUTION =
  "A record and planning aid, not a medical device. It does not replace a qualified person’s check, the maker’s instructions or local codes. " +
  "Printed: what changed since then is not on this sheet.";

/** The morning on paper: the board as it stood, then one sheet a room to check by hand. */
export function downtimePdf(view: DowntimeView): Promise<Buffer> {
  const at = instantOf(view.at);
  const moment = `${dateIn(view.timeZone, at)} ${timeIn(view.timeZone, at)}`;
  const pdf = beginPdf({
    title: `${view.facility}: the morning on paper, ${moment}`,
    subject: "Rooms as they stood, and a check sheet for each",
    language: "en-US",
    at: new Date(at),
  });
  heading(pdf, "H1", `${view.facility}, ${moment}`, 16);
  paragraph(pdf, "Work from paper while nothing else works. Enter every sheet afterwards, with who did it and when.");
  boardTable(pdf, view);
  for (const sheet of view.sheets) checkSheet(pdf, sheet);
  return endPdf(pdf, `${view.facility}, printed ${moment}. ${CAUTION}`);
}

function heading(pdf: Pdf, level: "H1" | "H2", words: string, size: number): void {
  pdf.addStructure(
    pdf.struct(level, {}, () => {
      pdf
        .font(BOLD)
        .fontSize(size)
        .fillColor("#000000")
        .text(words, MARGIN, pdf.y, { width: innerWidth(pdf) });
    }),
  );
  pdf.moveDown(0.3);
}

function paragraph(pdf: Pdf, words: string): void {
  pdf.addStructure(
    pdf.struct("P", {}, () => {
      pdf
        .font(PLAIN)
        .fontSize(9.5)
        .fillColor("#000000")
        .text(words, MARGIN, pdf.y, { width: innerWidth(pdf) });
    }),
  );
  pdf.moveDown(0.5);
}

function boardTable(pdf: Pdf, { rooms, timeZone }: DowntimeView): void {
  pdfTable(
    pdf,
    [
      { heading: "Room", share: 0.13 },
      { heading: "First case", share: 0.1 },
      { heading: "State", share: 0.16 },
      { heading: "Workstation", share: 0.13 },
      { heading: "Why", share: 0.3 },
      { heading: "Checked, provider", share: 0.18 },
    ],
    rooms.map((room) => roomCells(room, timeZone)),
  );
}

const roomCells = (room: PrintedRoom, zone: string): PdfCell[] => [
  { text: room.name, bold: true },
  { text: room.firstCase ? timeIn(zone, instantOf(room.firstCase)) : "" },
  { text: [READINESS_NAMES[room.state], room.occupancy].filter(Boolean).join(", ") },
  { text: room.workstation ?? "none" },
  { text: room.reason ?? "" },
  { text: [room.equipment ?? "not checked", room.provider ?? "not confirmed"].join(", ") },
];

const ANSWER_BOXES = { "yes-no": ["good", "fails"], reading: null, choice: null } as const;

function checkSheet(pdf: Pdf, sheet: PrintedSheet): void {
  pdf.addPage();
  heading(pdf, "H2", `${sheet.room}, workstation ${sheet.workstation}`, 14);
  paragraph(pdf, `${sheet.model}. ${sheet.procedure}.`);
  paragraph(
    pdf,
    "Done by (name, user id): ____________________________   Date: ____________   From: ________   To: ________",
  );
  paragraph(
    pdf,
    "May be used:  yes / no      Signed: ____________________________      Provider: ____________________________",
  );
  pdfTable(
    pdf,
    [
      { heading: "Item", share: 0.46 },
      { heading: "Limit", share: 0.2 },
      { heading: "Answer", share: 0.2 },
      { heading: "Remark", share: 0.14 },
    ],
    sheet.items.map(({ title, limit, answer, unit }) => {
      const boxes = ANSWER_BOXES[answer];
      return [
        { text: title },
        { text: limit ?? "" },
        boxes ? { text: "", boxes } : { text: unit ? `__________ ${unit}` : "______________" },
        { text: "" },
      ];
    }),
    { size: 8.5, least: 17 },
  );
}
