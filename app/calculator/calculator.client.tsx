"use client";

import "./zod-without-eval.client";
import { useMemo, useState } from "react";
import { Choice } from "@/app/_ui/choice";
import { Panel } from "@/app/_ui/panel";
import { plotFor } from "@/lib/exchange/calculator/plot-for";
import { calculationNamed } from "@/lib/exchange/calculator/registry";
import { AnswerView, Glance } from "./answer-view";
import styles from "./calculator.module.css";
import { CopyLine } from "./copy-line.client";
import { EnduranceBars } from "./endurance-bars";
import { Fields } from "./fields.client";
import type { FormField } from "./form-model";
import { asked, type Entered, entered, hasPressure, inUnit, PAGE_UNITS, type PageUnit } from "./form-state";
import { PlotFigure } from "./plot-figure";

interface CalculatorProps {
  name: string;
  title: string;
  about: string;
  fields: readonly FormField[];
  example: Readonly<Record<string, unknown>>;
}

/** The form and its answer, which follows at once what is typed. Everything is computed in the browser. */
export function Calculator({ name, title, about, fields, example }: CalculatorProps) {
  const [all, setAll] = useState<Entered>(() => entered(fields, example));
  const [unit, setUnit] = useState<PageUnit>("psi");
  const { request, problems, outcome, plot } = useMemo(
    () => answered(name, fields, all, unit),
    [name, fields, all, unit],
  );
  const changeUnit = (next: PageUnit) => {
    setAll(inUnit(fields, all, unit, next));
    setUnit(next);
  };
  const wrong = outcome?.ok === false ? fieldProblems(outcome.more.fields) : problems;
  return (
    <div className={styles.work}>
      <Glance outcome={outcome} />
      <Panel title={title}>
        <p className={styles.about}>{about}</p>
        {hasPressure(fields) ? (
          <Choice
            legend="Gauge pressures in"
            options={PAGE_UNITS.map((value) => ({ value, label: value }))}
            value={unit}
            onChange={changeUnit}
          />
        ) : null}
        <Fields fields={fields} all={all} unit={unit} problems={wrong} path="" onChange={setAll} />
      </Panel>
      <div className={styles.result}>
        <Panel title="Answer">
          <AnswerView outcome={outcome} />
          {name === "endurance" && outcome?.ok ? <EnduranceBars value={outcome.value} /> : null}
        </Panel>
        {plot ? (
          <Panel title={plot.title}>
            <PlotFigure plot={plot} />
          </Panel>
        ) : null}
        <CopyLine line={JSON.stringify({ id: 1, calculation: name, ...request })} />
      </div>
    </div>
  );
}

/** Numbers that are none keep the calculation from being asked at all. */
function answered(name: string, fields: readonly FormField[], all: Entered, unit: PageUnit) {
  const { request, problems } = asked(fields, all, unit);
  const calculation = calculationNamed(name);
  if (!calculation || Object.keys(problems).length > 0) return { request, problems, outcome: null, plot: null };
  const outcome = calculation.run(request);
  return { request, problems, outcome, plot: plotFor(name, request, outcome) };
}

function fieldProblems(told: unknown): Record<string, string> {
  if (!Array.isArray(told)) return {};
  return Object.fromEntries(
    (told as { path: string; message: string }[]).map(({ path, message }) => [path, sentence(message)]),
  );
}

const sentence = (message: string) => `${message.charAt(0).toUpperCase()}${message.slice(1)}.`;
