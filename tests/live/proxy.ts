import net from "node:net";

/** A wire to the database that can go dead without being closed, as a network does. */
export interface Wire {
  readonly url: string;
  /** Nothing passes any more on the connections there are; they stay open. */
  hang(): void;
  /** Connections made from now on pass again. */
  mend(): void;
  close(): Promise<void>;
}

export async function wireTo(databaseUrl: string): Promise<Wire> {
  const { hostname, port } = new URL(databaseUrl);
  const sockets = new Set<net.Socket>();
  let dead = false;
  const server = net.createServer((client) => {
    const database = net.connect(Number(port), hostname);
    for (const socket of [client, database]) {
      sockets.add(socket);
      socket.on("error", () => undefined);
    }
    client.on("data", (chunk) => dead || database.write(chunk));
    database.on("data", (chunk) => dead || client.write(chunk));
    client.on("close", () => database.destroy());
    database.on("close", () => client.destroy());
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const url = new URL(databaseUrl);
  url.hostname = "127.0.0.1";
  url.port = String((server.address() as net.AddressInfo).port);
  return {
    url: url.href,
    hang: () => {
      dead = true;
    },
    mend: () => {
      dead = false;
    },
    close: async () => {
      for (const socket of sockets) socket.destroy();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
  };
}
