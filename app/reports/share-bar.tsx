import chart from "./chart.module.css";

const HEIGHT = 14;

interface ShareBarProps {
  of: number;
  inTime: number;
  late?: number;
  /** A short one in the same line as its figures. */
  beside?: boolean;
}

/** Of some whole: what came in time, what came later, and the rest left open. The figures stand beside it. */
export function ShareBar({ of, inTime, late = 0, beside = false }: ShareBarProps) {
  if (of === 0) return null;
  const part = (count: number) => `${(100 * count) / of}%`;
  return (
    <svg className={beside ? chart.beside : chart.share} height={HEIGHT} aria-hidden="true" focusable="false">
      <rect className={chart.shareRest} width="100%" height={HEIGHT} />
      <rect className={chart.done} width={part(inTime)} height={HEIGHT} />
      <rect className={chart.late} x={part(inTime)} y={HEIGHT / 4} width={part(late)} height={HEIGHT / 2} />
    </svg>
  );
}
