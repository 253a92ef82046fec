import { parseArgs } from "node:util";
import { Problem } from "./problem";

export interface ServeArguments {
  readonly port: number;
  readonly host: string;
  readonly tls?: { readonly cert: string; readonly key: string };
}

const SERVE_OPTIONS = {
  port: { type: "string" },
  host: { type: "string" },
  cert: { type: "string" },
  key: { type: "string" },
  help: { type: "boolean" },
} as const;

type Given = Record<string, string | boolean | undefined>;

/** Reads the command line; an option nobody knows is named, and help ends the program. */
export function readArguments(extra: Record<string, { type: "string" | "boolean" }>, help: string): Given {
  let values: Given;
  try {
    ({ values } = parseArgs({ options: { ...SERVE_OPTIONS, ...extra }, allowPositionals: false }));
  } catch (error) {
    throw new Problem(`${(error as Error).message}\n\n${help}`);
  }
  if (values.help) {
    console.log(help);
    process.exit(0);
  }
  return values;
}

export function serveArguments(given: Given, defaults: { port: number; host: string }): ServeArguments {
  const { cert, key } = given;
  if ((cert === undefined) !== (key === undefined))
    throw new Problem("--cert and --key belong together: give both or neither.");
  return {
    port: given.port === undefined ? defaults.port : portFrom(String(given.port), "--port"),
    host: given.host === undefined ? defaults.host : String(given.host),
    ...(cert !== undefined && key !== undefined ? { tls: { cert: String(cert), key: String(key) } } : {}),
  };
}

export function portFrom(text: string, name: string): number {
  const port = Number(text);
  if (!/^\d{1,5}$/.test(text) || port < 1 || port > 65_535) {
    throw new Problem(`${name} ${text} is not a port: it must be a whole number from 1 to 65535.`);
  }
  return port;
}

export function daysFrom(text: string): number {
  const days = Number(text);
  if (!/^\d{1,3}$/.test(text) || days < 1)
    throw new Problem(`--days ${text} is not a number of days: it must be a whole number from 1 to 999.`);
  return days;
}
