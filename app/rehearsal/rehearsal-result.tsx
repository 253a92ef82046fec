import { LinkButton } from "@/app/_ui/link-button";
import { Page, PageHeading } from "@/app/_ui/page";
import type { RehearsalResultView, RehearsalView } from "@/lib/schemas/rehearsal";
import styles from "./rehearsal.module.css";

const OUTCOMES = { found: "Found", missed: "Missed", "not-reached": "Not reached" } as const;

/** What was planted, what was found of it, and how others did in published studies. Said once, kept nowhere. */
export function RehearsalResult({ rehearsal, result }: { rehearsal: RehearsalView; result: RehearsalResultView }) {
  const { faults, found, planted, falseAlarms, unseen, unanswered, studies } = result;
  return (
    <Page narrow>
      <PageHeading
        title={`${found} of ${planted} planted faults found`}
        sub="This rehearsal is not kept, and nobody is told. It is practice, not an examination."
      />
      <ul className={styles.faults}>
        {faults.map(({ key, title, wrong, harm, outcome, because }) => (
          <li key={key} data-outcome={outcome}>
            <strong className={styles.outcome}>{OUTCOMES[outcome]}</strong>
            <span>
              <strong>{wrong}</strong> {harm}
              <span className={styles.soft}>
                {title}
                {because ? `. ${because}` : ""}
              </span>
            </span>
          </li>
        ))}
      </ul>
      <More title="Good, but called bad or misread" of={falseAlarms} />
      <More title="Answered without looking at everything" of={unseen} />
      <More title="Left out" of={unanswered} />
      <Compared share={planted === 0 ? 0 : found / planted} studies={studies} />
      <div className={styles.actions}>
        <LinkButton href={`/rehearsal?seed=${rehearsal.seed + 1}&faults=${rehearsal.faults}`} look="primary">
          Another workstation
        </LinkButton>
        <LinkButton href="/rehearsal">Choose</LinkButton>
      </div>
    </Page>
  );
}

function More({ title, of }: { title: string; of: readonly { key: string; title: string; because?: string }[] }) {
  if (of.length === 0) return null;
  return (
    <details className={styles.more}>
      <summary>
        {title}: {of.length}
      </summary>
      <ul>
        {of.map(({ key, title: item, because }) => (
          <li key={key}>
            {item}
            {because ? `: ${because}` : ""}
          </li>
        ))}
      </ul>
    </details>
  );
}

/** The share that was found, beside those of published studies. Their machines and faults were others: a measure of the task, not of you. */
function Compared({ share, studies }: { share: number; studies: RehearsalResultView["studies"] }) {
  const bars = [{ who: "You, here", found: percent(share), citation: null, share }, ...studies];
  return (
    <section className={styles.compared} aria-labelledby="rehearsal-others">
      <h2 id="rehearsal-others">How hard this is</h2>
      <ul>
        {bars.map(({ who, found, citation, share: part }) => (
          <li key={`${who} ${found}`}>
            <span className={styles.who}>
              {who}: {found}
            </span>
            {part === null ? null : (
              <svg className={styles.bar} viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
                <rect className={styles.track} width="100" height="6" />
                <rect className={styles.share} width={part * 100} height="6" />
              </svg>
            )}
            {citation ? <span className={styles.soft}>{citation}</span> : null}
          </li>
        ))}
      </ul>
      <p className={styles.soft}>
        The studies planted other faults in other machines: they say how hard the task is, not how good you are.
      </p>
    </section>
  );
}

const percent = (share: number) => `${Math.round(share * 100)} % of the planted faults found`;
