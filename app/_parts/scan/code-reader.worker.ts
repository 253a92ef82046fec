import { BarcodeDetector, prepareZXingModule } from "barcode-detector/ponyfill";
import { CODE_FORMATS } from "./code-formats";

/**
 * Finds codes in pictures. It runs apart from the page for two reasons: a slow phone still scrolls meanwhile, and the page itself
 * need not be allowed to compile machine code.
 */
prepareZXingModule({
  // Served with the application itself; nothing is fetched from anywhere else.
  overrides: { locateFile: () => new URL("zxing-wasm/reader/zxing_reader.wasm", import.meta.url).href },
});
const detector = new BarcodeDetector({ formats: [...CODE_FORMATS] });

/** One answer to each picture: what the codes in it hold, or why none could be read. */
self.addEventListener("message", async ({ data: picture }: MessageEvent<ImageBitmap>) => {
  try {
    const found = await detector.detect(picture);
    self.postMessage({ texts: found.map(({ rawValue }) => rawValue) });
  } catch (problem) {
    self.postMessage({ problem: problem instanceof Error ? problem.message : String(problem) });
  } finally {
    picture.close();
  }
});
