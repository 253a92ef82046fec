import { found } from "@/lib/commands/found";
import { openDatabase, type Scope } from "@/lib/storage/client";
import type { TestDatabase } from "@/tests/support/database";

/** An organisation with one facility and its administrator, founded as the command line does it. */
export async function foundedFacility(
  { ownerUrl }: Pick<TestDatabase, "ownerUrl">,
  name: string,
  at = Date.parse("2026-11-24T11:30:00Z"),
): Promise<Scope & { readonly personId: string }> {
  const owner = openDatabase(ownerUrl);
  try {
    return await found(
      owner,
      { now: () => at },
      {
        organisation: `${name} Health`,
        facility: name,
        timeZone: "America/Chicago",
        scheme: "US",
        pressureUnit: "psi",
        name: `Administrator of ${name}`,
        userId: name.toLowerCase().replaceAll(" ", "-"),
        password: "a long enough password",
      },
    );
  } finally {
    await owner.close();
  }
}
