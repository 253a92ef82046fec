type Answer = { readonly texts: readonly string[] } | { readonly problem: string };

/** Reads the codes in one picture after the other. */
export class CodeReader {
  readonly #worker = new Worker(new URL("./code-reader.worker.ts", import.meta.url));

  /** What the codes in the picture hold. The picture is handed over and is gone afterwards. */
  read(picture: ImageBitmap): Promise<readonly string[]> {
    return new Promise((resolve, reject) => {
      this.#worker.onmessage = ({ data }: MessageEvent<Answer>) =>
        "texts" in data ? resolve(data.texts) : reject(new Error(data.problem));
      this.#worker.onerror = () => reject(new Error("The reader of codes could not be loaded."));
      this.#worker.postMessage(picture, [picture]);
    });
  }

  close(): void {
    this.#worker.terminate();
  }
}
