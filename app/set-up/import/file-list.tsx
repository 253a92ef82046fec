import { Said } from "@/app/_parts/said.client";
import { Button } from "@/app/_ui/button.client";
import styles from "@/app/set-up/set-up.module.css";
import { IMPORT_FILES, type ImportFile } from "@/lib/schemas/set-up";
import type { ChosenFile } from "./chosen-files.client";

/** What each file holds, in the order in which they need each other. */
const HOLDS: Record<ImportFile, string> = {
  suites: "suites, on which the walk goes",
  zones: "pipeline zones",
  stores: "stores for spares",
  rooms: "rooms, piped gases, walking order",
  models: "models of workstations, yokes, methods",
  workstations: "workstations, in a room or spare",
  cylinders: "cylinders, fitted or in a store",
  vaporizers: "vaporizers and their mounts",
  absorbent: "absorbent and when it was changed",
  sensors: "oxygen sensors",
  service: "service dates and windows",
  people: "people, their roles, first passwords",
  list: "today’s list: first case, end, needs",
};

/** All files with their templates, and which of them stand ready here. */
export function FileList({ files, onRemove }: { files: readonly ChosenFile[]; onRemove: (file: ImportFile) => void }) {
  return (
    <ul className={styles.files}>
      {IMPORT_FILES.map((file) => {
        const chosen = files.find((one) => one.file === file);
        return (
          <li key={file} className={styles.file}>
            <a href={`/api/v1/imports/templates/${file}.csv`} download={`${file}.csv`}>
              {file}.csv
            </a>
            <span className={styles.soft}>
              {chosen ? <strong>{chosen.fileName}</strong> : <Said>{HOLDS[file]}</Said>}
            </span>
            {chosen ? (
              <Button look="quiet" aria-label={`Leave out ${chosen.fileName}`} onClick={() => onRemove(file)}>
                Leave out
              </Button>
            ) : (
              <span />
            )}
          </li>
        );
      })}
    </ul>
  );
}
