import type { Metadata } from "next";
import { PageHeading } from "@/app/_ui/page";
import { PasswordForm } from "./password-form.client";
import { PinForm } from "./pin-form.client";

export const metadata: Metadata = { title: "Password" };

export default function PasswordPage() {
  return (
    <>
      <PageHeading
        title="Your password"
        sub="At least 12 characters. A few words you can type with one hand do better than one odd word."
      />
      <PasswordForm />
      <PinForm />
    </>
  );
}
