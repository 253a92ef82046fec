import { shortName } from "./format";

/** A person's name, short on the eye and whole for a screen reader and on hover. */
export function PersonName({ name }: { name: string }) {
  const short = shortName(name);
  return short === name ? <span>{name}</span> : <abbr title={name}>{short}</abbr>;
}
