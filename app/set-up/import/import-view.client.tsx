"use client";

import { type ChangeEvent, useState } from "react";
import { type Problem, postJson } from "@/app/_parts/api.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { newRequestId } from "@/app/_parts/request-id";
import { Said } from "@/app/_parts/said.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Notice } from "@/app/_ui/notice";
import { Panel } from "@/app/_ui/panel";
import styles from "@/app/set-up/set-up.module.css";
import type { ImportPreview } from "@/lib/schemas/set-up";
import { type ChosenFile, readChosen } from "./chosen-files.client";
import { FileList } from "./file-list";
import { ImportCounts } from "./import-counts";
import { ImportProblems } from "./import-problems";

/** Choose, look, apply. Files chosen later join those chosen before; one chosen again replaces itself. */
export function ImportView() {
  const [files, setFiles] = useState<readonly ChosenFile[]>([]);
  const [refused, setRefused] = useState<readonly string[]>([]);
  const { preview, problem, busy, look, clear } = usePreview();
  const apply = useCommand("import-department");
  const [applied, setApplied] = useState(false);

  const choose = async (event: ChangeEvent<HTMLInputElement>) => {
    const input = event.target;
    const chosen = await readChosen(input.files ?? []);
    // Emptied, so that a file corrected meanwhile can be chosen again under its own name.
    input.value = "";
    const kept = files.filter(({ file }) => !chosen.files.some((one) => one.file === file));
    const all = [...kept, ...chosen.files];
    setFiles(all);
    setRefused(chosen.refused);
    setApplied(false);
    apply.reset();
    if (all.length > 0) await look(all);
  };
  const remove = (file: ChosenFile["file"]) => {
    const rest = files.filter((one) => one.file !== file);
    setFiles(rest);
    if (rest.length > 0) look(rest);
    else clear();
  };
  const send = async () => {
    const reply = await apply.send({ files: textsOf(files) });
    if (!reply?.ok) return;
    setApplied(true);
    setFiles([]);
    clear();
  };

  return (
    <>
      <Panel title="Files" aside="UTF-8, comma or semicolon, numbers with a decimal point">
        <FileList files={files} onRemove={remove} />
        <div className={styles.choose}>
          <label htmlFor="import-files">
            <strong>Choose CSV files</strong>, several at once; each is known by its name
          </label>
          <input id="import-files" type="file" accept=".csv,.txt,text/csv" multiple onChange={choose} />
        </div>
        {refused.length > 0 ? (
          <Notice tone="wrong" title="Not taken" announce="alert">
            <ul>
              {refused.map((sentence) => (
                <li key={sentence}>{sentence}</li>
              ))}
            </ul>
          </Notice>
        ) : null}
      </Panel>
      <ProblemNotice problem={problem} />
      {busy ? <p role="status">Looking at every row…</p> : null}
      {preview ? <Preview preview={preview} /> : null}
      <ProblemNotice problem={apply.problem} />
      {applied && apply.problem === null ? (
        <Notice tone="done" title="The department is imported" announce="status">
          <p>
            <Said>Rooms stand on the board as To check; new people sign in with the password of their row.</Said>
          </p>
        </Notice>
      ) : null}
      {preview ? (
        <div>
          <Button
            look="primary"
            size="large"
            busy={apply.busy || busy}
            disabledReason={preview.ok ? null : "Not until every row is right."}
            onClick={send}
          >
            Import
          </Button>
        </div>
      ) : null}
    </>
  );
}

function Preview({ preview }: { preview: ImportPreview }) {
  return (
    <>
      {preview.ok ? (
        <Notice tone="done" title="Every row is right" announce="status">
          {preview.date ? <p>The list is of {preview.date}.</p> : null}
        </Notice>
      ) : (
        <ImportProblems problems={preview.problems} />
      )}
      <ImportCounts counts={preview.counts} />
    </>
  );
}

const textsOf = (files: readonly ChosenFile[]) => Object.fromEntries(files.map(({ file, text }) => [file, text]));

/** The server looks at the files; only the answer to the last question is shown. */
function usePreview() {
  const [preview, setPreview] = useState<ImportPreview | null>(null);
  const [problem, setProblem] = useState<Problem | null>(null);
  const [busy, setBusy] = useState(false);
  const look = async (files: readonly ChosenFile[]) => {
    setBusy(true);
    setPreview(null);
    setProblem(null);
    const reply = await postJson<ImportPreview>(
      "/api/v1/imports/preview",
      { files: textsOf(files) },
      { key: newRequestId() },
    );
    setBusy(false);
    if (reply.ok) setPreview(reply.value);
    else setProblem(reply.problem);
  };
  const clear = () => {
    setPreview(null);
    setProblem(null);
  };
  return { preview, problem, busy, look, clear };
}
