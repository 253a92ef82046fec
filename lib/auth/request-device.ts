/** The device a request comes from, as far as counting attempts needs it: its address and its browser, shortened. */
export function deviceOf(headers: Readonly<Record<string, unknown>> | undefined): string {
  const text = (name: string) => String(headers?.[name] ?? "").slice(0, 120);
  return `${text("x-forwarded-for")}|${text("user-agent")}`;
}
