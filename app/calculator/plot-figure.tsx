import { useId } from "react";
import { DataTable } from "@/app/_ui/data-table";
import type { LineStyle, Plot } from "@/lib/exchange/calculator/plot";
import { described, drawn } from "@/lib/exchange/calculator/plot-geometry";
import styles from "./plot.module.css";
import { figure, unitWords } from "./words";

const withUnit = ({ label, unit }: { label: string; unit: string }) =>
  unit === "" ? label : `${label}, ${unitWords(unit)}`;

/** The plot as a picture with its own words, and as a table for who reads rather than looks. */
export function PlotFigure({ plot }: { plot: Plot }) {
  const id = useId();
  const { width, height, frame, paths, dots } = drawn(plot);
  return (
    <figure className={styles.figure}>
      <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-labelledby={`${id}-t ${id}-d`} className={styles.svg}>
        <title id={`${id}-t`}>{plot.title}</title>
        <desc id={`${id}-d`}>{described(plot)}</desc>
        <Axes plot={plot} />
        {paths.map(({ name, style, d }) => (
          <path key={name} d={d} className={styles[style]} />
        ))}
        {dots.map(({ name, x, y, isAnswer }) => (
          <circle
            key={`${name} ${x} ${y}`}
            cx={x}
            cy={y}
            r={isAnswer ? 6.5 : 3.5}
            className={isAnswer ? styles.here : styles.dot}
          />
        ))}
        <text x={(frame.left + frame.right) / 2} y={height - 6} textAnchor="middle" className={styles.label}>
          {withUnit(plot.x)}
        </text>
      </svg>
      <ul className={styles.legend}>
        <li className={styles.axis}>Up: {withUnit(plot.y)}</li>
        {plot.lines.map(({ name, style }) => (
          <li key={name}>
            <Sample style={style} /> {name}
          </li>
        ))}
        {dots.some(({ isAnswer }) => isAnswer) ? (
          <li>
            <svg className={styles.sample} viewBox="0 0 28 12" aria-hidden="true">
              <circle cx="14" cy="6" r="5" className={styles.here} />
            </svg>{" "}
            {dots.find(({ isAnswer }) => isAnswer)?.name}
          </li>
        ) : null}
      </ul>
      <details className={styles.table}>
        <summary>The plot as a table</summary>
        <PlotTable plot={plot} />
      </details>
    </figure>
  );
}

function Axes({ plot }: { plot: Plot }) {
  const { frame, xTicks, yTicks } = drawn(plot);
  return (
    <g>
      {yTicks.map(({ at, text }) => (
        <g key={text}>
          <line x1={frame.left} x2={frame.right} y1={at} y2={at} className={styles.grid} />
          <text x={frame.left - 7} y={at + 4} textAnchor="end" className={styles.tick}>
            {text}
          </text>
        </g>
      ))}
      {xTicks.map(({ at, text }) => (
        <g key={text}>
          <line x1={at} x2={at} y1={frame.bottom} y2={frame.bottom + 5} className={styles.base} />
          <text x={at} y={frame.bottom + 20} textAnchor="middle" className={styles.tick}>
            {text}
          </text>
        </g>
      ))}
      <line x1={frame.left} x2={frame.right} y1={frame.bottom} y2={frame.bottom} className={styles.base} />
    </g>
  );
}

function Sample({ style }: { style: LineStyle }) {
  return (
    <svg className={styles.sample} viewBox="0 0 28 12" aria-hidden="true">
      <path d="M0 6H28" className={styles[style]} />
    </svg>
  );
}

const ROWS = 12;

function PlotTable({ plot: { title, x, y, xs, lines } }: { plot: Plot }) {
  const every = Math.max(1, Math.floor(xs.length / ROWS));
  const rows = xs.map((at, place) => ({ at, place })).filter(({ place }) => place % every === 0);
  return (
    <DataTable name={title} caption={`${withUnit(y)}, by ${x.label.toLowerCase()}`}>
      <thead>
        <tr>
          <th scope="col">{withUnit(x)}</th>
          {lines.map(({ name }) => (
            <th key={name} scope="col">
              {name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(({ at, place }) => (
          <tr key={place}>
            <th scope="row">{figure(at)}</th>
            {lines.map(({ name, ys }) => (
              <td key={name}>{told(ys[place])}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </DataTable>
  );
}

const told = (value: number | null | undefined) => (value === null || value === undefined ? "none" : figure(value));
