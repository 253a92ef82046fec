import path from "node:path";
import PDFDocument from "pdfkit";

/** The package is not imported but read: a bundler would take its letters for modules. The server runs from the project's folder. */
const FONTS = ["node_modules", "@expo-google-fonts", "atkinson-hyperlegible-next"];
const fontFile = (weight: string): string =>
  path.join(/* turbopackIgnore: true */ process.cwd(), ...FONTS, weight, `AtkinsonHyperlegibleNext_${weight}.ttf`);

export type Pdf = PDFKit.PDFDocument;

export interface PdfTitle {
  readonly title: string;
  readonly subject: string;
  readonly language: "en-US" | "en-GB";
  /** When it was made, by the facility's clock. */
  readonly at: Date;
}

/** Room for the hand that files it, in points (1/72 inch). */
export const MARGIN = 40;
const FOOT = 26;

export const PLAIN = "plain";
export const BOLD = "bold";

/**
 * An A4 document that a screen reader can follow (tagged, titled, with its language) and that carries its own letters.
 * Pages are kept until the end, so that a foot can say "3 of 12".
 */
export function beginPdf({ title, subject, language, at }: PdfTitle): Pdf {
  const pdf = new PDFDocument({
    size: "A4",
    margins: { top: MARGIN, left: MARGIN, right: MARGIN, bottom: MARGIN + FOOT },
    bufferPages: true,
    tagged: true,
    lang: language,
    displayTitle: true,
    pdfVersion: "1.7",
    info: { Title: title, Subject: subject, Creator: "Yokeboard", CreationDate: at },
  });
  pdf.registerFont(PLAIN, fontFile("400Regular"));
  pdf.registerFont(BOLD, fontFile("700Bold"));
  pdf.font(PLAIN).fontSize(10);
  return pdf;
}

export const innerWidth = (pdf: Pdf): number => pdf.page.width - 2 * MARGIN;

/** Is there room for so much more on this page? */
export const fits = (pdf: Pdf, height: number): boolean => pdf.y + height <= pdf.page.height - MARGIN - FOOT;

/** Ends the document: the foot on every page, then all of its bytes. The foot is an artifact: a screen reader passes over it. */
export async function endPdf(pdf: Pdf, foot: string): Promise<Buffer> {
  const { start, count } = pdf.bufferedPageRange();
  for (let page = 0; page < count; page += 1) {
    pdf.switchToPage(start + page);
    pdf.markContent("Artifact", { type: "Pagination" });
    // Written below the margin on purpose; without this the line would open a page of its own.
    pdf.page.margins.bottom = 0;
    const y = pdf.page.height - MARGIN - FOOT + 10;
    const half = innerWidth(pdf) / 2;
    pdf.font(PLAIN).fontSize(7.5).fillColor("#444444");
    pdf.text(foot, MARGIN, y, { width: innerWidth(pdf) - 80, height: 22, ellipsis: true });
    pdf.text(`${page + 1} of ${count}`, MARGIN + half, y, { width: half, align: "right", lineBreak: false });
    pdf.endMarkedContent();
  }
  const chunks: Buffer[] = [];
  return new Promise((resolve, reject) => {
    pdf.on("data", (chunk: Buffer) => chunks.push(chunk));
    pdf.on("end", () => resolve(Buffer.concat(chunks)));
    pdf.on("error", reject);
    pdf.end();
  });
}
