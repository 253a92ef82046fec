import { defineConfig } from "prisma/config";

// Generating the client never runs the native schema engine; pointing at an existing program keeps Prisma from downloading one.
process.env.PRISMA_SCHEMA_ENGINE_BINARY ??= process.execPath;

export default defineConfig({ schema: "prisma", migrations: { path: "prisma/migrations" } });
