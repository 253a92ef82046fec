import type { MessagePort } from "@/lib/domain/outgoing";
import { mailPort } from "./mail";
import { pushPort } from "./push";
import { webhookPort } from "./webhook";

type Environment = Readonly<Record<string, string | undefined>>;

/** What the environment gives this server to send by; null where it gives nothing. */
export function configuredPorts(
  env: Environment = process.env,
): Readonly<Record<"mail" | "push" | "webhook", MessagePort | null>> {
  const { NEXTAUTH_SECRET: serverSecret, YOKEBOARD_SMTP_URL: smtp, YOKEBOARD_MAIL_FROM: from } = env;
  const inside = (env.YOKEBOARD_WEBHOOK_HOSTS ?? "").split(",").flatMap((host) => host.trim() || []);
  const contact = from ? `mailto:${from.replace(/^.*<|>.*$/g, "")}` : (env.YOKEBOARD_PUBLIC_URL ?? "");
  return {
    mail: smtp && from ? mailPort(smtp, from) : null,
    webhook: serverSecret ? webhookPort({ serverSecret, inside }) : null,
    push: serverSecret && /^(https:|mailto:)/.test(contact) ? pushPort({ serverSecret, inside, contact }) : null,
  };
}
