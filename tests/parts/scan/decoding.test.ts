import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { BarcodeDetector, prepareZXingModule } from "barcode-detector/ponyfill";
import { toBuffer } from "bwip-js/node";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { CODE_FORMATS } from "@/app/_parts/scan/code-formats";
import { readScanned, workstationPath } from "@/app/_parts/scan/scanned";

const ID = "0b9f3c1e-5d7a-4e21-9c44-7f2a1c3d5e6f";

/** Two of the browser's own kinds of value, as far as the reader of codes asks for them. */
class Picture {
  constructor(
    readonly data: Uint8ClampedArray,
    readonly width: number,
    readonly height: number,
  ) {}
}
class Box {}

let detector: BarcodeDetector;
beforeAll(() => {
  vi.stubGlobal("ImageData", Picture);
  vi.stubGlobal("DOMRectReadOnly", Box);
  const reader = createRequire(import.meta.url).resolve("zxing-wasm/reader/zxing_reader.wasm");
  const bytes = readFileSync(reader);
  prepareZXingModule({
    overrides: { wasmBinary: bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length) },
  });
  // Made only now: it looks for its program at once, and would look for it elsewhere.
  detector = new BarcodeDetector({ formats: [...CODE_FORMATS] });
});
afterAll(() => {
  vi.unstubAllGlobals();
});

/** A code as a label printer draws it, as the picture of a camera. */
async function photographed(bcid: string, text: string): Promise<ImageData> {
  const code = await toBuffer({ bcid, text, scale: 4, paddingwidth: 10, paddingheight: 10, backgroundcolor: "FFFFFF" });
  const { data, info } = await sharp(code)
    .rotate(3, { background: "#ffffff" })
    .blur(0.5)
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return new ImageData(new Uint8ClampedArray(data), info.width, info.height);
}

describe("a code on a label", () => {
  it.each(["qrcode", "datamatrix", "code128"])("as %s is read as the workstation’s number", async (bcid) => {
    const [found] = await detector.detect(await photographed(bcid, "AW-07"));
    expect(readScanned(found?.rawValue ?? "")).toEqual({ by: "number", number: "AW-07" });
  });

  it.each(["qrcode", "datamatrix"])("as %s is read as its own link", async (bcid) => {
    const [found] = await detector.detect(await photographed(bcid, `https://board.example${workstationPath(ID)}`));
    expect(readScanned(found?.rawValue ?? "")).toEqual({ by: "id", id: ID });
  });

  it("that is none is not made one", async () => {
    const blank = await sharp({ create: { width: 200, height: 200, channels: 4, background: "#fff" } })
      .raw()
      .toBuffer();
    expect(await detector.detect(new ImageData(new Uint8ClampedArray(blank), 200, 200))).toEqual([]);
  });
});
