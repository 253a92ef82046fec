import type { NextConfig } from "next";

/** A second build of the same tree, beside the usual one, for a server that must not be disturbed by it. */
const distDir = process.env.YOKEBOARD_BUILD ?? ".next";

const config: NextConfig = {
  distDir,
  poweredByHeader: false,
  reactStrictMode: true,
  // Native code and drivers, loaded by Node as they are.
  serverExternalPackages: [
    "@node-rs/argon2",
    "@prisma/client",
    "@prisma/adapter-pg",
    "pdfkit",
    "pg",
    "pino",
    "rate-limiter-flexible",
  ],
  typescript: {
    // `npm run check` asks the compiler itself, about the tests too; a start after a change should not wait for that.
    ignoreBuildErrors: true,
    // Next writes the build folder into the file it is given; only the usual one may stand in the repository's own.
    tsconfigPath: distDir === ".next" ? "tsconfig.json" : `${distDir}.tsconfig.json`,
  },
  turbopack: { root: import.meta.dirname },
  experimental: {
    serverActions: { bodySizeLimit: "10mb" },
  },
};

export default config;
