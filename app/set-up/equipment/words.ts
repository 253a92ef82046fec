import type { Drive, LeakTest } from "@/lib/domain/vocabulary";

export const DRIVE_WORDS: Record<Drive, string> = {
  "ascending-bellows": "ascending bellows",
  "descending-bellows": "descending bellows",
  piston: "piston",
  turbine: "turbine",
};

export const LEAK_TEST_WORDS: Record<LeakTest, string> = {
  bulb: "negative pressure, with the bulb",
  "self-test": "by the self-test",
  "positive-pressure": "positive pressure, by hand",
  none: "none: no outlet within reach",
};
