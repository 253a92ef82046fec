import { seed } from "@/seed/index";
import { SEED_NOW } from "./seeded-template";

const databaseUrl = process.env.DATABASE_URL ?? "";
const ownerUrl = process.env.DATABASE_OWNER_URL ?? "";

await seed({ databaseUrl, ownerUrl, now: SEED_NOW, days: Number(process.env.SEED_DAYS), progress: () => undefined });
process.exit(0);
