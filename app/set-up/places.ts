interface Place {
  readonly href: string;
  readonly label: string;
  /** The command without which the place is of no use. */
  readonly needs: string;
}

const PLACES: readonly Place[] = [
  { href: "/set-up/rooms", label: "Rooms", needs: "set-room" },
  { href: "/set-up/equipment", label: "Equipment", needs: "set-workstation" },
  { href: "/set-up/week", label: "Week", needs: "set-weekly-template" },
  { href: "/set-up/rules", label: "Rules", needs: "propose-rules" },
  { href: "/set-up/procedures", label: "Procedures", needs: "draft-procedure" },
  { href: "/set-up/import", label: "Import", needs: "import-department" },
  { href: "/set-up/people", label: "People", needs: "change-roles" },
  { href: "/set-up/facility", label: "Facility", needs: "set-site" },
  { href: "/set-up/walls", label: "Walls", needs: "register-device" },
  { href: "/set-up/password", label: "Password", needs: "set-password" },
];

/** The places of the set-up whose command this person may give. */
export const setUpPlaces = (mayDo: readonly string[]): Place[] => PLACES.filter(({ needs }) => mayDo.includes(needs));
