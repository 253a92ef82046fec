/** Where this run's PostgreSQL is; handed from the setup to the tests. */
export interface TestCluster {
  readonly superuserUrl: string;
  readonly ownerUrl: string;
  readonly appUrl: string;
  /** For files of this run; deleted with it. */
  readonly folder: string;
}

export const EMPTY_TEMPLATE = "template_empty";

/** The same server and role, another database. */
export function connectTo(url: string, database: string): string {
  const address = new URL(url);
  address.pathname = `/${database}`;
  return address.href;
}

declare module "vitest" {
  interface ProvidedContext {
    testCluster: TestCluster;
  }
}
