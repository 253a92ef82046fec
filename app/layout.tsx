import "@fontsource-variable/atkinson-hyperlegible-next/index.css";
import "./tokens.css";
import "./globals.css";

import type { Metadata, Viewport } from "next";
import { headers } from "next/headers";
import type { ReactNode } from "react";
import { currentPerson } from "@/app/_edge/page-actor";
import { Shell } from "@/app/_shell/shell";
import { readSession } from "@/lib/queries/session";
import { offsetsToday } from "./_shell/offsets-today";
import { Providers } from "./providers.client";

/** Every page carries its request's nonce and a person's own data, so none is made ahead of its request. */
export const dynamic = "force-dynamic";

export const metadata: Metadata = {
  title: { default: "Yokeboard", template: "%s · Yokeboard" },
  description: "Which rooms can start, and if not, what is missing and who is on it.",
  robots: { index: false, follow: false },
};

export const viewport: Viewport = {
  width: "device-width",
  initialScale: 1,
  themeColor: [
    { media: "(prefers-color-scheme: light)", color: "#f4f3ee" },
    { media: "(prefers-color-scheme: dark)", color: "#12161a" },
  ],
};

/** A wall and the shell of a device without a connection stand alone: no places, and nothing of the person whose session opened it. */
const standsAlone = async (): Promise<boolean> => ALONE.has((await headers()).get("x-yokeboard-path") ?? "");
const ALONE = new Set(["/wall", "/offline"]);

export default async function RootLayout({ children }: { children: ReactNode }) {
  if (await standsAlone())
    return (
      <html lang="en">
        <body>{children}</body>
      </html>
    );
  const actor = await currentPerson();
  const session = actor ? await readSession(actor) : null;
  return (
    <html lang="en">
      <body>
        <Providers session={session} offsets={session ? offsetsToday(session.facility.timeZone, session.at) : null}>
          <Shell session={session}>{children}</Shell>
        </Providers>
      </body>
    </html>
  );
}
