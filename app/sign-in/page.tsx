import type { Metadata } from "next";
import { redirect } from "next/navigation";
import { currentPerson } from "@/app/_edge/page-actor";
import { Wordmark } from "@/app/_shell/wordmark";
import { configuredIssuer } from "@/lib/auth/issuer";
import { readPeopleToTry } from "@/lib/queries/people";
import { nextPath } from "./next-path";
import styles from "./sign-in.module.css";
import { SignInForm } from "./sign-in-form.client";

export const metadata: Metadata = { title: "Sign in" };

interface SignInPageProps {
  searchParams: Promise<{ next?: string | string[]; error?: string | string[] }>;
}

export default async function SignInPage({ searchParams }: SignInPageProps) {
  const { next: wished, error } = await searchParams;
  const next = nextPath(wished);
  if (await currentPerson()) redirect(next);
  return (
    <div className={styles.page}>
      <div className={styles.intro}>
        <p className={styles.brand}>
          <Wordmark />
        </p>
        <p className={styles.claim}>Which rooms can start, and if not, what is missing and who is on it.</p>
      </div>
      <SignInForm
        next={next}
        issuer={configuredIssuer()?.name ?? null}
        failed={typeof error === "string" ? error : null}
        people={await readPeopleToTry()}
        demoPassword={process.env.YOKEBOARD_DEMO_PASSWORD ?? null}
      />
    </div>
  );
}
