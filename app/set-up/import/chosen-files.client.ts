"use client";

import { IMPORT_FILES, type ImportFile } from "@/lib/schemas/set-up";

export interface ChosenFile {
  readonly file: ImportFile;
  readonly fileName: string;
  readonly text: string;
}

export interface ChosenFiles {
  readonly files: readonly ChosenFile[];
  /** What was chosen but cannot be taken, one sentence each. */
  readonly refused: readonly string[];
}

const MOST_BYTES = 5_000_000;

/** Reads what was chosen and says by its name which of the files it is: rooms.csv, or "riverside rooms (2).csv". */
export async function readChosen(list: Iterable<File>): Promise<ChosenFiles> {
  const files: ChosenFile[] = [];
  const refused: string[] = [];
  for (const chosen of list) {
    const file = fileNamed(chosen.name);
    const problem = file
      ? await readOne(chosen, file, files)
      : `${chosen.name} is none of the thirteen: name it after its template, such as rooms.csv.`;
    if (problem) refused.push(problem);
  }
  return { files, refused };
}

async function readOne(chosen: File, file: ImportFile, files: ChosenFile[]): Promise<string | null> {
  const twin = files.find((one) => one.file === file);
  if (twin) return `${chosen.name} and ${twin.fileName} are both the file “${file}”: choose one of them.`;
  if (chosen.size > MOST_BYTES) return `${chosen.name} is larger than 5 MB.`;
  try {
    const text = new TextDecoder("utf-8", { fatal: true }).decode(await chosen.arrayBuffer());
    files.push({ file, fileName: chosen.name, text });
    return null;
  } catch {
    return `${chosen.name} is not UTF-8 text. Save it again as “CSV UTF-8”.`;
  }
}

export function fileNamed(fileName: string): ImportFile | null {
  const base = fileName
    .toLowerCase()
    .replace(/\.(csv|txt)$/, "")
    .replace(/\s*\(\d+\)$/, "");
  const words = base.split(/[^a-z]+/);
  return IMPORT_FILES.find((file) => words.at(-1) === file || words[0] === file) ?? null;
}
