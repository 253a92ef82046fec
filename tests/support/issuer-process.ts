import Provider from "oidc-provider";

/** A real OpenID Connect issuer in a process of its own. Accounts and their groups come from the environment. */
interface Account {
  readonly name: string;
  readonly preferred_username: string;
  readonly email: string;
  readonly groups: readonly string[];
}

const accounts = new Map<string, Account>(
  Object.entries(JSON.parse(process.env.ISSUER_ACCOUNTS ?? "{}") as Record<string, Account>),
);
const port = Number(process.env.ISSUER_PORT);
const issuer = `http://127.0.0.1:${port}`;

const provider = new Provider(issuer, {
  clients: [
    {
      client_id: "yokeboard",
      client_secret: "a secret of the tests between two processes",
      redirect_uris: [process.env.ISSUER_REDIRECT ?? ""],
    },
  ],
  pkce: { required: () => true },
  cookies: { keys: ["a key of the tests"] },
  claims: { openid: ["sub"], profile: ["name", "preferred_username"], email: ["email"], groups: ["groups"] },
  scopes: ["openid", "profile", "email", "groups"],
  features: { devInteractions: { enabled: true } },
  findAccount: (_context, id) => {
    const account = accounts.get(id);
    return account ? { accountId: id, claims: () => ({ sub: id, ...account }) } : undefined;
  },
});

provider.listen(port, "127.0.0.1", () => console.log(`issuing ${issuer}`));
process.stdin.on("end", () => process.exit(0)).resume();
// Groups change at the issuer while the department goes on: one JSON line each.
let kept = "";
process.stdin.on("data", (chunk: Buffer) => {
  kept += chunk.toString("utf8");
  const lines = kept.split("\n");
  kept = lines.pop() ?? "";
  for (const line of lines) {
    const { id, account } = JSON.parse(line) as { id: string; account: Account };
    accounts.set(id, account);
  }
});
