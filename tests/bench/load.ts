import http from "node:http";

export interface Reply {
  readonly status: number;
  readonly etag: string;
  readonly body: Buffer;
}

export interface Pressed {
  readonly count: number;
  readonly ratePerS: number;
}

/** As many requests at a time as browsers at one moment of a busy morning. */
const AT_A_TIME = 8;

export type Load = { readonly path: string; readonly headers: Readonly<Record<string, string>> };

/** A client with connections that stay open. */
export class Client {
  readonly #agent = new http.Agent({ keepAlive: true, maxSockets: AT_A_TIME });
  constructor(private readonly url: string) {}

  get({ path, headers }: Load): Promise<Reply> {
    return new Promise((resolve, reject) => {
      const request = http.get(`${this.url}${path}`, { agent: this.#agent, headers }, (response) => {
        const chunks: Buffer[] = [];
        response.on("data", (chunk: Buffer) => chunks.push(chunk));
        response.on("error", reject);
        response.on("end", () =>
          resolve({ status: response.statusCode ?? 0, etag: response.headers.etag ?? "", body: Buffer.concat(chunks) }),
        );
      });
      request.on("error", reject);
    });
  }

  /** Asks without a pause for so long; every reply is looked at by `examine`. */
  async press(load: Load, durationMs: number, examine: (reply: Reply) => void): Promise<Pressed> {
    const started = performance.now();
    let count = 0;
    const worker = async () => {
      while (performance.now() - started < durationMs) {
        examine(await this.get(load));
        count += 1;
      }
    };
    await Promise.all(Array.from({ length: AT_A_TIME }, worker));
    return { count, ratePerS: (count * 1000) / (performance.now() - started) };
  }

  close(): void {
    this.#agent.destroy();
  }
}
