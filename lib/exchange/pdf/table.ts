import { BOLD, fits, innerWidth, MARGIN, type Pdf, PLAIN } from "@/lib/exchange/pdf/document";

export interface PdfColumn {
  readonly heading: string;
  /** Share of the page's width; the shares of all columns make one. */
  readonly share: number;
}

export interface PdfCell {
  readonly text: string;
  readonly bold?: boolean;
  /** Empty boxes to tick or to write into, with their words. */
  readonly boxes?: readonly string[];
}

const PAD = 4;
const BOX = 9;

/** A table that goes on over pages, its head repeated. Rows are never parted. `least` is the smallest height of a row, for writing by hand. */
export function pdfTable(
  pdf: Pdf,
  columns: readonly PdfColumn[],
  rows: readonly (readonly PdfCell[])[],
  { size = 9, least = 0 }: { readonly size?: number; readonly least?: number } = {},
): void {
  const table = pdf.struct("Table");
  pdf.addStructure(table);
  const head = columns.map(({ heading }): PdfCell => ({ text: heading, bold: true }));
  const draw = (cells: readonly PdfCell[], kind: "TH" | "TD") => {
    const height = Math.max(
      least,
      ...cells.map((cell, place) => heightOf(pdf, cell, widthOf(pdf, columns[place]), size)),
    );
    if (!fits(pdf, height)) {
      pdf.addPage();
      if (kind === "TD") draw(head, "TH");
    }
    const row = pdf.struct("TR");
    table.add(row);
    const y = pdf.y;
    let x = MARGIN;
    for (const [place, cell] of cells.entries()) {
      const width = widthOf(pdf, columns[place]);
      const at = { x, y, width };
      row.add(pdf.struct(kind, {}, () => drawCell(pdf, cell, at, size)));
      x += width;
    }
    row.end();
    rule(pdf, y + height);
    pdf.x = MARGIN;
    pdf.y = y + height;
  };
  draw(head, "TH");
  for (const cells of rows) draw(cells, "TD");
  table.end();
}

const widthOf = (pdf: Pdf, column: PdfColumn | undefined): number => innerWidth(pdf) * (column?.share ?? 0);

function heightOf(pdf: Pdf, { text, bold, boxes }: PdfCell, width: number, size: number): number {
  pdf.font(bold ? BOLD : PLAIN).fontSize(size);
  const words = boxes
    ? boxes.length > 1
      ? BOX
      : BOX + 2
    : pdf.heightOfString(text || " ", { width: width - 2 * PAD });
  return words + 2 * PAD;
}

function drawCell(
  pdf: Pdf,
  { text, bold, boxes }: PdfCell,
  { x, y, width }: { readonly x: number; readonly y: number; readonly width: number },
  size: number,
): void {
  pdf
    .font(bold ? BOLD : PLAIN)
    .fontSize(size)
    .fillColor("#000000");
  if (!boxes) {
    pdf.text(text || " ", x + PAD, y + PAD, { width: width - 2 * PAD });
    return;
  }
  const each = (width - 2 * PAD) / boxes.length;
  for (const [place, words] of boxes.entries()) {
    const left = x + PAD + place * each;
    pdf
      .lineWidth(0.8)
      .strokeColor("#000000")
      .rect(left, y + PAD, BOX, BOX)
      .stroke();
    pdf.text(words, left + BOX + 3, y + PAD, { width: each - BOX - 4, lineBreak: false });
  }
}

/** Only a line on paper, and nothing for a screen reader. */
function rule(pdf: Pdf, y: number): void {
  pdf.markContent("Artifact", { type: "Layout" });
  pdf
    .lineWidth(0.4)
    .strokeColor("#888888")
    .moveTo(MARGIN, y)
    .lineTo(MARGIN + innerWidth(pdf), y)
    .stroke();
  pdf.endMarkedContent();
}
