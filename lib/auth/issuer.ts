import type { OAuthConfig } from "next-auth/providers/oauth";

/** An OpenID Connect issuer that this server signs people in by: any, by configuration alone. */
export interface Issuer {
  readonly name: string;
  readonly address: string;
  readonly clientId: string;
  readonly clientSecret: string;
  readonly scope: string;
}

/** What an issuer said of somebody, its signature checked. */
export type Claims = Readonly<Record<string, unknown>> & { readonly iss: string; readonly sub: string };

/** The issuer of the environment; null without one. Half a configuration is a mistake that is told at once. */
export function configuredIssuer(env: Readonly<Record<string, string | undefined>> = process.env): Issuer | null {
  const address = env.YOKEBOARD_ISSUER;
  if (!address) return null;
  const clientId = env.YOKEBOARD_ISSUER_CLIENT_ID;
  const clientSecret = env.YOKEBOARD_ISSUER_CLIENT_SECRET;
  if (!URL.canParse(address) || !clientId || !clientSecret)
    throw new Error(
      "YOKEBOARD_ISSUER must be an address, and YOKEBOARD_ISSUER_CLIENT_ID and YOKEBOARD_ISSUER_CLIENT_SECRET must be set with it",
    );
  return {
    name: env.YOKEBOARD_ISSUER_NAME ?? new URL(address).host,
    address: address.replace(/\/$/, ""),
    clientId,
    clientSecret,
    scope: env.YOKEBOARD_ISSUER_SCOPE ?? "openid profile",
  };
}

/** The library's description of it: authorization code with PKCE, state and nonce; the ID token's claims stand above the rest. */
export const issuerProvider = ({ name, address, clientId, clientSecret, scope }: Issuer): OAuthConfig<Claims> => ({
  id: "issuer",
  name,
  type: "oauth",
  wellKnown: `${address}/.well-known/openid-configuration`,
  issuer: address,
  clientId,
  clientSecret,
  authorization: { params: { scope } },
  idToken: true,
  checks: ["pkce", "state", "nonce"],
  userinfo: {
    // Some issuers put groups into the ID token, others only here.
    request: async ({ client, tokens }) => {
      const signed = tokenClaims(tokens);
      const more = client.issuer.metadata.userinfo_endpoint ? await client.userinfo(tokens as never) : {};
      return { ...more, ...signed };
    },
  },
  profile: (claims) => ({ id: claims.sub, name: typeof claims.name === "string" ? claims.name : claims.sub }),
});

function tokenClaims(tokens: object): Claims {
  const { claims } = tokens as { claims?: () => Claims };
  if (!claims) throw new Error("the issuer sent no ID token");
  return claims.call(tokens);
}
