export type ReadNumber =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly message: string };

/** A typed number, or what is wrong with it. A comma is never guessed at: 1,955 is a thousand in one country and a decimal in another. */
export function readNumber(text: string): ReadNumber {
  const typed = text.trim().replace("−", "-");
  if (/^-?\d+,\d+$/.test(typed))
    return {
      ok: false,
      message: `“${typed}” has a comma. Type a decimal point and no separators: ${typed.replace(",", ".")} or ${typed.replace(",", "")}.`,
    };
  if (!/^-?(\d+\.?\d*|\.\d+)$/.test(typed))
    return { ok: false, message: `“${typed}” is not a number. Type figures and a decimal point.` };
  return { ok: true, value: Number(typed) };
}
