import { command } from "@/lib/commands/command";
import { refused } from "@/lib/domain/outcome";
import { decideIssue, decideRevokeToken } from "@/lib/domain/token/decide";
import { issueTokenReply, issueTokenRequest, revokeTokenReply, revokeTokenRequest } from "@/lib/schemas/access";
import { apiTokens, revokeToken as endToken, insertToken } from "@/lib/storage/tokens";
import { DAY, later, timestampOf } from "@/lib/units/time";

/** Neither the answer nor the record holds the token: an answer is kept so that it can be repeated, and the record is for reading. */
export const issueToken = command({
  name: "issue-token",
  summary: "Issue a token to a program: it reads, or gives the named commands, until its end, and for you.",
  schema: issueTokenRequest,
  reply: issueTokenReply,
  locks: () => ({}),
  load: (tx, _input, { begun }) => apiTokens(tx, begun.scope.facilityId),
  decide: (tokens, input, { begun }) => decideIssue(tokens, input, begun.roles),
  apply: async (tx, commands, { name, token, reads, days }, { begun, actor, now, newId, digest }) => {
    const tokenId = newId();
    const endsAt = later(now, days * DAY);
    const made = {
      id: tokenId,
      name,
      tokenHash: digest(token),
      reads,
      commands,
      personId: actor.personId,
      at: now,
      endsAt,
    };
    if (!(await insertToken(tx, begun.scope.facilityId, made)))
      return refused("taken", `The name ${name} or this token was taken in the meantime. Draw another one.`, "name");
    const scope = [reads ? "reads" : "", ...commands].filter(Boolean).join(", ");
    return {
      reply: { tokenId, endsAt: timestampOf(endsAt) },
      note: {
        text: `Issued the token ${name} for ${days} ${days === 1 ? "day" : "days"}: ${scope}`,
        data: { tokenId, name, reads, commands, endsAt: timestampOf(endsAt) },
      },
    };
  },
});

export const revokeToken = command({
  name: "revoke-token",
  summary: "Revoke a token: its program is refused from now on.",
  schema: revokeTokenRequest,
  reply: revokeTokenReply,
  locks: () => ({}),
  load: (tx, _input, { begun }) => apiTokens(tx, begun.scope.facilityId),
  decide: (tokens, { tokenId }) => decideRevokeToken(tokens, tokenId),
  apply: async (tx, token, { tokenId }, { begun, actor, now }) => {
    if (!(await endToken(tx, begun.scope.facilityId, tokenId, actor.personId, now)))
      return refused("already-done", `${token.name} was revoked in the meantime.`, "tokenId");
    return { reply: { tokenId }, note: { text: `Revoked the token ${token.name}`, data: { tokenId } } };
  },
});
