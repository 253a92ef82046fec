import { stoppingItems } from "@/lib/domain/rules/item-rule";

/** A leaking yoke empties the reserve before anybody needs it: that cylinder does not count, and the leak is put right first. */
export const yokeLeak = stoppingItems({
  id: "yoke-leak",
  inBrief: "leak at a yoke",
  what: "No cylinder leaks at its yoke with the valve shut",
  citation: "common practice, no source: no fall of the gauge in one minute",
  says: {
    "yoke-leak": "Yoke leaks",
  },
});
