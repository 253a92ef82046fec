"use client";

import { type FormEvent, useRef, useState } from "react";
import { goToIssuer, issuerError, signIn } from "@/app/_parts/auth.client";
import { Button } from "@/app/_ui/button.client";
import { TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";
import { PeopleToTry, type PersonToTry } from "./people-to-try";
import styles from "./sign-in.module.css";

interface SignInFormProps {
  next: string;
  /** The organisation's own sign-in, by its name; null where there is none. */
  issuer: string | null;
  /** Why it sent somebody back who was not let in. */
  failed: string | null;
  people: readonly PersonToTry[];
  /** The one password of the demo's invented people; null everywhere else. */
  demoPassword: string | null;
}

export function SignInForm({ next, issuer, failed, people, demoPassword }: SignInFormProps) {
  const [userId, setUserId] = useState("");
  const [password, setPassword] = useState("");
  const [busy, setBusy] = useState(false);
  const [error, setError] = useState<string | null>(issuerError(failed));
  const button = useRef<HTMLDivElement>(null);

  const submit = async (event: FormEvent) => {
    event.preventDefault();
    if (userId.trim() === "" || password === "") {
      setError("Enter your user id and your password.");
      return;
    }
    setBusy(true);
    const result = await signIn(userId, password);
    // A whole new page: everything on it then belongs to this person.
    if (result.ok) return window.location.assign(next);
    setBusy(false);
    setError(result.message);
  };
  const tryAs = (person: PersonToTry) => {
    setUserId(person.userId);
    if (demoPassword !== null) setPassword(demoPassword);
    setError(null);
    button.current?.querySelector("button")?.focus();
  };
  return (
    <div className={styles.columns}>
      <section className={styles.plate} aria-labelledby="sign-in">
        <h1 id="sign-in">Sign in</h1>
        {issuer === null ? null : (
          <Button size="large" wide onClick={async () => setError(await goToIssuer(next))}>
            Sign in with {issuer}
          </Button>
        )}
        <Form onSubmit={submit}>
          {error ? (
            <Notice tone="wrong" announce="alert">
              <p>{error}</p>
            </Notice>
          ) : null}
          <TextField
            label="User id"
            name="username"
            autoComplete="username"
            autoCapitalize="none"
            spellCheck={false}
            required
            value={userId}
            onChange={(event) => setUserId(event.target.value)}
          />
          <TextField
            label="Password"
            name="password"
            type="password"
            autoComplete="current-password"
            required
            value={password}
            onChange={(event) => setPassword(event.target.value)}
          />
          <div ref={button}>
            <Button type="submit" look="primary" size="large" wide busy={busy}>
              Sign in
            </Button>
          </div>
        </Form>
      </section>
      {people.length > 0 ? (
        <PeopleToTry people={people} password={demoPassword} chosen={userId} onChoose={tryAs} />
      ) : null}
    </div>
  );
}
