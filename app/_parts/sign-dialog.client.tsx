"use client";

import { type FormEvent, useEffect, useRef, useState } from "react";
import { Button } from "@/app/_ui/button.client";
import { Dialog } from "@/app/_ui/dialog.client";
import { TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { registerSigning, type SigningAsked, type TrySigning } from "./sign-ceremony.client";

interface Open {
  readonly asked: SigningAsked;
  readonly attempt: TrySigning;
}

const SAYS: Readonly<Record<SigningAsked["meaning"], string>> = {
  performed: "I performed this.",
  confirmed: "I have seen this and confirm it.",
  approved: "I approve this.",
  released: "I release this for use.",
};

/** Who signs, what the signature says, and the secret that only they have. What is signed stays on the screen behind it. */
export function SignDialog() {
  const [open, setOpen] = useState<Open | null>(null);
  const close = useRef<(() => void) | null>(null);
  useEffect(
    () =>
      registerSigning(
        (asked, attempt) =>
          new Promise<void>((resolve) => {
            close.current = resolve;
            setOpen({ asked, attempt });
          }),
      ),
    [],
  );
  const finish = () => {
    close.current?.();
    close.current = null;
    setOpen(null);
  };
  return (
    <Dialog open={open !== null} title="Sign" onClose={finish}>
      {open ? <SignForm {...open} onSigned={finish} /> : null}
    </Dialog>
  );
}

function SignForm({ asked, attempt, onSigned }: Open & { onSigned: () => void }) {
  const [userId, setUserId] = useState("");
  const [kind, setKind] = useState<"pin" | "password">(asked.hasPin ? "pin" : "password");
  const [value, setValue] = useState("");
  const [busy, setBusy] = useState(false);
  const [error, setError] = useState<string | null>(null);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    if (busy) return;
    setBusy(true);
    const wrong = await attempt({ ...(asked.asks === "two" ? { userId } : {}), secret: { kind, value } });
    setBusy(false);
    setError(wrong);
    if (wrong === null) onSigned();
    else setValue("");
  };
  return (
    <Form onSubmit={submit}>
      <p>
        <strong>{asked.name}</strong> signs: {SAYS[asked.meaning]}
      </p>
      {asked.asks === "two" ? (
        <TextField
          label="Your user id"
          hint="Asked once after you sign in or unlock."
          autoComplete="off"
          autoCapitalize="none"
          spellCheck={false}
          required
          value={userId}
          onChange={(event) => setUserId(event.target.value)}
        />
      ) : null}
      <TextField
        key={kind}
        label={kind === "pin" ? "Your PIN" : "Your password"}
        type="password"
        inputMode={kind === "pin" ? "numeric" : "text"}
        autoComplete={kind === "pin" ? "off" : "current-password"}
        required
        value={value}
        error={error}
        onChange={(event) => setValue(event.target.value)}
      />
      <Button type="submit" look="primary" size="large" wide busy={busy}>
        Sign
      </Button>
      {asked.hasPin && asked.hasPassword ? (
        <Button look="quiet" onClick={() => setKind(kind === "pin" ? "password" : "pin")}>
          {kind === "pin" ? "Use the password instead" : "Use the PIN instead"}
        </Button>
      ) : null}
    </Form>
  );
}
