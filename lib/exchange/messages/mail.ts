import nodemailer, { type Transporter } from "nodemailer";
import SMTPTransport from "nodemailer/lib/smtp-transport/index.js";
import { type MessagePort, NotSent, type Outgoing, PATIENCE_MS } from "@/lib/domain/outgoing";

const CAUTION =
  "Yokeboard is a record and planning aid, not a medical device. It defers to qualified people, the maker's instructions and local codes.";

/** Mail by the hospital's own server, as YOKEBOARD_SMTP_URL and YOKEBOARD_MAIL_FROM say. */
export function mailPort(smtpUrl: string, from: string): MessagePort & { close(): void } {
  // Made by hand: createTransport reads nothing beside a URL, and what is set on its options later has no effect.
  const smtp = new SMTPTransport({
    url: smtpUrl,
    connectionTimeout: PATIENCE_MS,
    greetingTimeout: PATIENCE_MS,
    socketTimeout: PATIENCE_MS,
    disableFileAccess: true,
    disableUrlAccess: true,
  });
  const transport: Transporter = nodemailer.createTransport(smtp, { from });
  return {
    send: async (message) => {
      try {
        await transport.sendMail(mailOf(message, from));
      } catch (error) {
        throw problemOf(error as { responseCode?: number; code?: string });
      }
    },
    close: () => transport.close(),
  };
}

/** The same Message-ID at every attempt: a server that has it already drops the second one. */
function mailOf({ id, facility, address, title, body, link, at }: Outgoing, from: string) {
  const domain =
    from
      .split("@")
      .at(-1)
      ?.replace(/[>\s].*$/, "") || "localhost";
  return {
    to: address.to,
    subject: `${facility}: ${title}`,
    messageId: `<${id}@${domain}>`,
    date: new Date(at),
    headers: { "Auto-Submitted": "auto-generated" },
    text: `${body}\n\n${link}\n\n-- \n${CAUTION}\n`,
  };
}

/** 5xx is the other side's last word (RFC 5321); everything else is worth another try. Nothing of the address or a password is said. */
function problemOf({ responseCode, code }: { responseCode?: number; code?: string }): NotSent {
  if (responseCode !== undefined) return new NotSent(`the mail server answered ${responseCode}`, responseCode >= 500);
  return new NotSent(`the mail server could not be reached (${code ?? "no reason given"})`);
}
