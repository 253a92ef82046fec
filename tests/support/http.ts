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

/** A request with exactly these headers: `fetch` would set some, Host among them, by itself. */
export function ask(url: string, { method = "GET", headers = {}, body }: Asking = {}): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const request = http.request(url, { method, headers, agent: false }, (response) => {
      let text = "";
      response.setEncoding("utf8");
      response.on("data", (chunk: string) => {
        text += chunk;
      });
      response.on("end", () => resolve({ status: response.statusCode ?? 0, headers: response.headers, body: text }));
    });
    request.on("error", reject);
    request.end(body);
  });
}
