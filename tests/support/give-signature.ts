import type { Page } from "playwright-core";

/** The ceremony as a person goes through it: the user id where it is asked for, the secret, Sign. */
export async function giveSignature(
  page: Page,
  who: { readonly userId: string; readonly password: string },
): Promise<void> {
  const dialog = page.getByRole("dialog", { name: "Sign" });
  const secret = dialog.getByLabel("Your password");
  await secret.waitFor();
  const userId = dialog.getByLabel("Your user id");
  if (await userId.isVisible()) await userId.fill(who.userId);
  await secret.fill(who.password);
  await dialog.getByRole("button", { name: "Sign", exact: true }).click();
  await dialog.waitFor({ state: "hidden" });
}
