import { done, type Outcome, refused } from "@/lib/domain/outcome";
import { type CommandName, may, mayByToken, PERMISSIONS } from "@/lib/domain/permission";
import type { TokenAsked, TokenKnown } from "@/lib/domain/token/model";
import type { Role } from "@/lib/domain/vocabulary";

const isCommand = (name: string): name is CommandName => Object.hasOwn(PERMISSIONS, name);

/** A token reads, or gives named commands, or both; nothing that its issuer may not, and nothing that only a person does. */
export function decideIssue(
  known: readonly TokenKnown[],
  asked: TokenAsked,
  roles: readonly Role[],
): Outcome<readonly CommandName[], "taken" | "invalid" | "not-allowed"> {
  const same = known.find(
    ({ name, revokedAt }) => revokedAt === null && name.toLowerCase() === asked.name.toLowerCase(),
  );
  if (same) return refused("taken", `There is a token named ${same.name} already. Choose another name.`, "name");
  if (!asked.reads && asked.commands.length === 0)
    return refused("invalid", "A token that may neither read nor give a command is of no use.", "commands");
  const unknown = asked.commands.find((name) => !isCommand(name) || !mayByToken(name));
  if (unknown !== undefined)
    return refused("invalid", `“${unknown}” is not a command that a token can be issued for.`, "commands");
  const commands = [...new Set(asked.commands)].filter(isCommand);
  const beyond = commands.find((name) => !may(roles, name));
  if (beyond !== undefined)
    return refused(
      "not-allowed",
      `You may not ${beyond.replaceAll("-", " ")} yourself, so no token of yours may.`,
      "commands",
    );
  return done(commands);
}

export function decideRevokeToken<Known extends TokenKnown>(
  known: readonly Known[],
  tokenId: string,
): Outcome<Known, "not-found" | "already-done"> {
  const token = known.find(({ id }) => id === tokenId);
  if (!token) return refused("not-found", "There is no such token in your facility.", "tokenId");
  if (token.revokedAt !== null) return refused("already-done", `${token.name} is revoked already.`, "tokenId");
  return done(token);
}
