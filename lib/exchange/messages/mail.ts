import nodemailer, { type Transporter } from "nodemailer";
import { type MessagePort, NotSent, type Outgoing, PATIENCE_MS } from "@/lib/domain/outgoing";

const CAUTION =
  "Yokeboard is a record and planning aid, not a medical device. It defers to qualified people, the maker's instructions and local codes.";

/** Mail by the hospital's own server, as YOKEBOARD_SMTP_URL and YOKEBOARD_MAIL_FROM say. */
export function mailPort(smtpUrl: string, from: string): MessagePort & { close(): void } {
  const transport: Transporter = nodemailer.createTransport(smtpUrl, {
    from,
  });
  Object.assign(transport.options, {
    connectionTimeout: PATIENCE_MS,
    greetingTimeout: PATIENCE_MS,
    socketTimeout: PATIENCE_MS,
    disableFileAccess: true,
    disableUrlAccess: true,
  });
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
