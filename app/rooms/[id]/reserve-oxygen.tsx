import { numberText, quantityText } from "@/app/_parts/format";
import { Panel } from "@/app/_ui/panel";
import type { RoomView } from "@/lib/schemas/room";
import styles from "./reserve-oxygen.module.css";

type Endurance = NonNullable<RoomView["endurance"]>;

/** How long reserve oxygen would last: each cylinder by hand and on the ventilator, to one scale, and what was taken as its use. */
export function ReserveOxygen({ view: { endurance } }: { view: RoomView }) {
  if (!endurance) return null;
  const { cylinders, freshGas, driveGas, residual, temperature } = endurance;
  const drive = driveGas.value === 0 ? "the drive takes none of it" : `the drive ${quantityText(driveGas)} more`;
  return (
    <Panel title="If oxygen failed now" aside="minutes from the reserve">
      <ul className={styles.cylinders}>
        {cylinders.map((cylinder) => (
          <li key={cylinder.position}>
            <Cylinder cylinder={cylinder} longest={longestOf(cylinders)} />
          </li>
        ))}
      </ul>
      <p className={styles.basis}>
        Counted from the low end of the contents down to {quantityText(residual)}, with {quantityText(freshGas)} of
        fresh gas; {drive}. Gas taken to be at {numberText(temperature.value)} °C; equation of state. A planning aid:
        watch the gauge.
      </p>
    </Panel>
  );
}

const longestOf = (cylinders: Endurance["cylinders"]): number =>
  Math.max(1, ...cylinders.flatMap(({ byHand, onVentilator }) => [byHand, onVentilator]));

function Cylinder({ cylinder, longest }: { cylinder: Endurance["cylinders"][number]; longest: number }) {
  const { position, reading, litres, low, high, byHand, onVentilator } = cylinder;
  const whole = (value: number) => numberText(Math.round(value), 0);
  return (
    <>
      <p className={styles.head}>
        <strong>Yoke {position}</strong> {quantityText(reading)} · {whole(litres)} L{" "}
        <span className={styles.soft}>
          ({whole(low)} to {whole(high)})
        </span>
      </p>
      <dl className={styles.spans}>
        <Span name="by hand" minutes={byHand} longest={longest} />
        <Span name="on the ventilator" minutes={onVentilator} longest={longest} />
      </dl>
    </>
  );
}

function Span({ name, minutes, longest }: { name: string; minutes: number; longest: number }) {
  return (
    <div className={styles.span}>
      <dt>{name}</dt>
      <dd>
        <svg className={styles.bar} aria-hidden="true" focusable="false">
          <rect className={styles.all} width="100%" height="100%" rx="3" />
          <rect className={styles.left} width={`${(100 * minutes) / longest}%`} height="100%" rx="3" />
        </svg>
        <span className={styles.minutes}>{numberText(minutes, 0)} min</span>
      </dd>
    </div>
  );
}
