import { randomBytes } from "node:crypto";
import { accessSettings } from "@/lib/storage/access";
import { bindIdentity } from "@/lib/storage/identities";
import { instant } from "@/lib/units/time";
import type { Scene } from "./prepared-inputs";

const ISSUER = "https://id.alder-ridge.example";
let counted = 0;
const subject = (): string => {
  counted += 1;
  return `subject-${counted}`;
};
const scopeOf = ({ admin }: Scene["department"]) => ({
  organisationId: admin.organisationId,
  facilityId: admin.facility.id,
});

export const newToken = (): string => `yb_${randomBytes(30).toString("base64url")}`;

async function boundSubject({ department, helper }: Scene) {
  const identity = { issuer: ISSUER, subject: subject() };
  const { organisationId } = scopeOf(department);
  const more = { organisationId, personId: helper.personId, at: instant(department.clock.now()), by: null };
  await department.database.inScope(scopeOf(department), (tx) => bindIdentity(tx, { ...identity, ...more }));
  return identity;
}

/** Inputs of the commands of who gets in. */
export const PREPARE_ACCESS = (
  firstPassword: string,
  issueToken: (scene: Scene, input: ReturnType<typeof tokenInput>) => Promise<{ tokenId: string }>,
) => ({
  "set-pin": async () => ({ current: { kind: "password" as const, value: firstPassword }, pin: "274916" }),
  "clear-pin": async ({ helper }: Scene) => ({ personId: helper.personId }),
  "set-access": async ({ department }: Scene) => {
    const scope = scopeOf(department);
    const { version } = await department.database.inScope(scope, (tx) => accessSettings(tx, scope.facilityId));
    return { seenVersion: version, signing: "none" as const, idleMinutes: 15, mapping: null };
  },
  "bind-identity": async ({ helper }: Scene) => ({ personId: helper.personId, issuer: ISSUER, subject: subject() }),
  "unbind-identity": boundSubject,
  "issue-token": async () => tokenInput(),
  "revoke-token": async (scene: Scene) => issueToken(scene, tokenInput()),
  "renew-head-key": async () => {
    process.env.NEXTAUTH_SECRET ??= "a secret of the tests, long enough for its purpose";
    return {};
  },
});

const tokenInput = () => ({
  name: `Schedule ${subject()}`,
  token: newToken(),
  reads: true,
  commands: ["set-room"],
  days: 30,
});
