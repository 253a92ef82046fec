import http from "node:http";

export interface Answer {
  readonly status: number;
  readonly headers: http.IncomingHttpHeaders;
  readonly body: string;
}

export interface Asking {
  readonly method?: string;
  readonly headers?: http.OutgoingHttpHeaders;
  readonly body?: string | Buffer;
}

/** Longer than any answer takes on a busy machine. */
const NO_LONGER_THAN_MS = 30_000;

/** A request with exactly these headers: `fetch` would set some, Host among them, by itself. */
export function ask(url: string, { method = "GET", headers = {}, body }: Asking = {}): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const request = http.request(url, { method, headers, agent: false }, (response) => {
      let text = "";
      response.setEncoding("utf8");
      response.on("data", (chunk: string) => {
        text += chunk;
      });
      // A server that is killed in the middle of its answer ends nothing: without these two the answer would be waited for for ever.
      response.on("error", reject);
      response.on("close", () => reject(new Error("the connection was lost in the middle of the answer")));
      response.on("end", () => resolve({ status: response.statusCode ?? 0, headers: response.headers, body: text }));
    });
    request.on("error", reject);
    request.setTimeout(NO_LONGER_THAN_MS, () => request.destroy(new Error("no answer came in time")));
    request.end(body);
  });
}
