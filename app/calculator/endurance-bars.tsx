import { useId } from "react";
import styles from "./plot.module.css";
import { figure } from "./words";

interface Span {
  readonly toAlarm: number | null;
  readonly toResidual: number;
}

interface EnduranceValue {
  readonly byHand: Span | null;
  readonly onVentilator: Span | null;
}

const WIDTH = 520;
const ROW = 56;

/** Two bars: solid to the alarm, hatched from there to the residual. The numbers stand above them as words too. */
export function EnduranceBars({ value }: { value: unknown }) {
  const id = useId();
  const { byHand, onVentilator } = value as EnduranceValue;
  const rows = [
    { name: "By hand", span: byHand },
    { name: "On the ventilator", span: onVentilator },
  ].filter((row): row is { name: string; span: Span } => row.span !== null);
  const longest = Math.max(...rows.map(({ span }) => span.toResidual), 1);
  const length = (minutes: number) => Math.round((minutes / longest) * WIDTH);
  const words = rows.map(({ name, span }) => `${name}: ${spoken(span)}`);
  return (
    <svg
      viewBox={`0 0 ${WIDTH} ${rows.length * ROW}`}
      role="img"
      aria-labelledby={`${id}-t ${id}-d`}
      className={styles.svg}
    >
      <title id={`${id}-t`}>How long the reserve lasts</title>
      <desc id={`${id}-d`}>{words.join(". ")}</desc>
      {rows.map(({ name, span }, at) => (
        <g key={name} transform={`translate(0 ${at * ROW})`}>
          <text x="0" y="16" className={styles.label}>
            {`${name}: ${spoken(span)}`}
          </text>
          <rect x="0" y="24" width={length(span.toResidual)} height="20" className={styles.rest} />
          <rect x="0" y="24" width={length(span.toAlarm ?? span.toResidual)} height="20" className={styles.bar} />
        </g>
      ))}
    </svg>
  );
}

const spoken = ({ toAlarm, toResidual }: Span): string =>
  toAlarm === null
    ? `${figure(toResidual)} min`
    : `alarm at ${figure(toAlarm)} min, residual at ${figure(toResidual)} min`;
