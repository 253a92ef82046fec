"use client";

import { ROLE_WORDS } from "@/app/_parts/words";
import { Checkbox } from "@/app/_ui/choice";
import { FieldError } from "@/app/_ui/field";
import styles from "@/app/set-up/set-up.module.css";
import { ROLES, type Role } from "@/lib/domain/vocabulary";

/** Several roles a person; each says on its own what may be done. */
export function RoleBoxes({
  roles,
  onRoles,
  error,
}: {
  roles: readonly Role[];
  onRoles: (roles: Role[]) => void;
  error?: string | null;
}) {
  return (
    <fieldset>
      <legend className={styles.legend}>Roles in this facility</legend>
      <div className={styles.roles}>
        {ROLES.map((role) => (
          <Checkbox
            key={role}
            label={ROLE_WORDS[role]}
            checked={roles.includes(role)}
            onChange={(event) =>
              onRoles(ROLES.filter((one) => (one === role ? event.target.checked : roles.includes(one))))
            }
          />
        ))}
      </div>
      {error ? <FieldError>{error}</FieldError> : null}
    </fieldset>
  );
}
