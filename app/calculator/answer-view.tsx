import { type Definition, DefinitionList } from "@/app/_ui/definition-list";
import { Notice } from "@/app/_ui/notice";
import type { Gs1Element } from "@/lib/calculations/gs1/element-string";
import type { NotTold, Outcome, Told } from "@/lib/exchange/calculator/answer";
import styles from "./calculator.module.css";
import { flattened } from "./flattened";
import { figure, keyWords, optionWords, unitWords } from "./words";

/** The answer in one line, for a screen where the form pushes it out of sight; the answer itself is what is read aloud. */
export function Glance({ outcome }: { outcome: Outcome | null }) {
  return (
    <p className={styles.glance} aria-hidden="true">
      {outcome === null ? "No answer yet" : glanceOf(outcome)}
    </p>
  );
}

function glanceOf(outcome: Outcome): string {
  if (!outcome.ok) {
    const floor = floorOf(outcome.more);
    return floor ? `at least ${figure(floor.value)} ${unitWords(floor.unit)}` : "No answer yet";
  }
  const { value, unit } = outcome;
  if (typeof value === "object" && value !== null)
    return flattened(value, unit)
      .slice(0, 2)
      .map(({ term, value: said }) => `${term}: ${said}`)
      .join(" · ");
  return headline(value, unit);
}

const headline = (value: unknown, unit: string | null) => `${worded(value)}${unit ? ` ${unitWords(unit)}` : ""}`;

function worded(value: unknown): string {
  if (typeof value === "number") return figure(value);
  return value === "not-limited" ? "Not limited" : optionWords(String(value));
}

/** The answer, or in its place why there is none. Null: a field holds no number yet. */
export function AnswerView({ outcome }: { outcome: Outcome | null }) {
  return (
    <div className={styles.answer} aria-live="polite">
      {outcome === null ? (
        <Notice tone="heed" title="No answer yet">
          A field is not a number; it says what would be right.
        </Notice>
      ) : outcome.ok ? (
        <Answered told={outcome} />
      ) : (
        <NotAnswered not={outcome} />
      )}
    </div>
  );
}

function Answered({ told }: { told: Told }) {
  const { value, unit, method, uncertainty, source, more } = told;
  return (
    <>
      <Headline value={value} unit={unit} elements={more.elements} />
      {uncertainty ? (
        <p className={styles.range}>
          {figure(uncertainty.low)} to {figure(uncertainty.high)} {uncertainty.unit ? unitWords(uncertainty.unit) : ""}
          <span>{uncertainty.because}</span>
        </p>
      ) : null}
      {typeof more.remark === "string" ? <p>{more.remark}</p> : null}
      <DefinitionList
        entries={[...parts(more), { term: "Method", value: method }, { term: "Source", value: source }]}
      />
    </>
  );
}

function Headline({ value, unit, elements }: { value: unknown; unit: string | null; elements: unknown }) {
  if (typeof value === "object" && value !== null)
    return (
      <div className={styles.several}>
        <DefinitionList entries={Array.isArray(elements) ? elements.map(elementOf) : flattened(value, unit)} />
      </div>
    );
  return (
    <p className={styles.figure}>
      {worded(value)}
      {unit ? <span> {unitWords(unit)}</span> : null}
    </p>
  );
}

/** An identifier means nothing to most people; its title does. */
const elementOf = ({ ai, title, value }: Gs1Element): Definition => ({ term: `(${ai}) ${title}`, value });

/** What else the answer says, as far as it is for people. */
function parts(more: Readonly<Record<string, unknown>>): Definition[] {
  return Object.entries(more)
    .filter(([key]) => key !== "remark" && key !== "limit" && key !== "limitUnit" && key !== "elements")
    .map(([key, value]) => ({ term: keyWords(key), value: said(value) }));
}

function said(value: unknown): string {
  if (Array.isArray(value)) return value.map((one) => (typeof one === "string" ? one : JSON.stringify(one))).join(" ");
  return typeof value === "number" ? figure(value) : String(value);
}

function NotAnswered({ not: { refusal, message, more } }: { not: NotTold }) {
  const floor = floorOf(more);
  return (
    <>
      {floor ? (
        <p className={styles.figure}>
          <span>at least</span> {figure(floor.value)}
          <span> {unitWords(floor.unit)}</span>
        </p>
      ) : null}
      <Notice tone="heed" title={refusal === "invalid-input" ? "No answer yet" : "No number is the answer"}>
        {refusal === "invalid-input" ? "A field is missing or cannot be used; it says what would be right." : message}
      </Notice>
    </>
  );
}

function floorOf({ atLeastL, atLeast }: Readonly<Record<string, unknown>>): { value: number; unit: string } | null {
  if (typeof atLeastL === "number") return { value: atLeastL, unit: "L" };
  if (typeof atLeast === "number") return { value: atLeast, unit: "days" };
  return (atLeast as { value: number; unit: string } | undefined) ?? null;
}
