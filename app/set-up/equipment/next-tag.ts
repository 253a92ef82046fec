/** The tag after this one: "AW-09" is followed by "AW-10". What ends in no number is followed by nothing. */
export function nextTag(tag: string): string {
  const [, stem = "", number = ""] = /^(.*?)(\d+)$/.exec(tag.trim()) ?? [];
  return number === "" ? "" : `${stem}${String(Number(number) + 1).padStart(number.length, "0")}`;
}
