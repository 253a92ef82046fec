"use client";

import { useState } from "react";
import { useMayDo } from "@/app/_parts/session.client";
import { Button } from "@/app/_ui/button.client";
import { Dialog } from "@/app/_ui/dialog.client";
import styles from "./duty.module.css";
import { DutyForm } from "./duty-form.client";
import { DutyImport } from "./duty-import.client";
import type { Person } from "./roster-types";

/** Somebody more on duty by hand, or everybody from a file; for those who may. */
export function DutyTools({ date, people }: { date: string; people: readonly Person[] }) {
  const maySet = useMayDo("set-duty");
  const mayImport = useMayDo("import-duty");
  const [open, setOpen] = useState<"add" | "import" | null>(null);
  const close = () => setOpen(null);
  return (
    <div className={styles.tools}>
      {maySet ? <Button onClick={() => setOpen("add")}>Add somebody</Button> : null}
      {mayImport ? <Button onClick={() => setOpen("import")}>Import a roster</Button> : null}
      <Button onClick={() => window.print()}>Print</Button>
      <Dialog open={open === "add"} title="On duty" onClose={close}>
        <DutyForm date={date} people={people} spans={[]} onDone={close} />
      </Dialog>
      <Dialog open={open === "import"} title="Import a roster" onClose={close}>
        <DutyImport onDone={close} />
      </Dialog>
    </div>
  );
}
