"use client";

import { type FormEvent, useEffect, useRef, useState } from "react";
import { Button } from "@/app/_ui/button.client";
import { Dialog } from "@/app/_ui/dialog.client";
import { TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { signIn } from "./auth.client";
import { useSession } from "./session.client";
import { registerSignInDialog } from "./sign-in-again.client";

/**
 * A session that ends in the middle of work is renewed in place: what was typed stays, and the waiting request goes out again.
 * Only the same person may go on here; somebody else starts at the sign-in page, so that nobody's answers get another's name.
 */
export function SignInDialog() {
  const session = useSession();
  const answer = useRef<((signedIn: boolean) => void) | null>(null);
  const [open, setOpen] = useState(false);

  useEffect(
    () =>
      registerSignInDialog(
        () =>
          new Promise<boolean>((resolve) => {
            answer.current = resolve;
            setOpen(true);
          }),
      ),
    [],
  );
  const finish = (signedIn: boolean) => {
    answer.current?.(signedIn);
    answer.current = null;
    setOpen(false);
  };
  if (!session) return null;
  return (
    <Dialog open={open} title="Sign in again to go on" onClose={() => finish(false)}>
      <SignInAgainForm name={session.person.name} userId={session.person.userId} onSignedIn={() => finish(true)} />
    </Dialog>
  );
}

function SignInAgainForm({ name, userId, onSignedIn }: { name: string; userId: string; onSignedIn: () => void }) {
  const [password, setPassword] = useState("");
  const [busy, setBusy] = useState(false);
  const [error, setError] = useState<string | null>(null);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    if (busy) return;
    setBusy(true);
    const result = await signIn(userId, password);
    setBusy(false);
    if (result.ok) onSignedIn();
    else setError(result.message);
  };
  return (
    <Form onSubmit={submit}>
      <p>Your session has ended. Nothing you entered is lost: it is sent as soon as you sign in as {name}.</p>
      <input type="text" name="username" autoComplete="username" value={userId} readOnly hidden />
      <TextField
        label={`Password of ${userId}`}
        type="password"
        autoComplete="current-password"
        required
        value={password}
        error={error}
        onChange={(event) => setPassword(event.target.value)}
      />
      <Button type="submit" look="primary" size="large" wide busy={busy}>
        Sign in and go on
      </Button>
      <p>
        Not {name}? <a href="/sign-in">Sign in as somebody else</a>; what is unsent here stays with {name}.
      </p>
    </Form>
  );
}
