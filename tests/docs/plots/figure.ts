/** A plain line chart as SVG text, the same for the same numbers: the figures of docs/calculations.md. */
export interface Axis {
  readonly label: string;
  readonly from: number;
  readonly to: number;
  readonly step: number;
}

export interface Curve {
  readonly name: string;
  readonly points: readonly (readonly [number, number])[];
  readonly dash?: string;
  /** Points instead of a line. */
  readonly dots?: boolean;
}

export interface Figure {
  readonly title: string;
  /** What is to be seen, for who cannot see it. */
  readonly says: string;
  readonly x: Axis;
  readonly y: Axis;
  readonly curves: readonly Curve[];
  /** A stretch of the x axis, as an interval. */
  readonly band?: { readonly from: number; readonly to: number; readonly name: string };
}

const WIDTH = 640;
const HEIGHT = 360;
const LEFT = 64;
const RIGHT = 150;
const TOP = 20;
const BOTTOM = 48;
const INKS = ["#1c4e8a", "#a1242a", "#1b6b58", "#855600", "#5a3d82"];
const DASHES = ["", "7 4", "2 4", "10 3 2 3", "1 3"];

const round = (value: number): string => String(Math.round(value * 10) / 10);
const escaped = (text: string): string => text.replaceAll("&", "&amp;").replaceAll("<", "&lt;");

export function svgOf(figure: Figure): string {
  const { x, y, curves, title, says } = figure;
  const across = (value: number) => LEFT + ((value - x.from) / (x.to - x.from)) * (WIDTH - LEFT - RIGHT);
  const down = (value: number) => HEIGHT - BOTTOM - ((value - y.from) / (y.to - y.from)) * (HEIGHT - TOP - BOTTOM);
  const inside = ([px, py]: readonly [number, number]) => px >= x.from && px <= x.to && py >= y.from && py <= y.to;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-labelledby="title says" font-family="sans-serif" font-size="12">`,
    `<title id="title">${escaped(title)}</title>`,
    `<desc id="says">${escaped(says)}</desc>`,
    `<rect width="${WIDTH}" height="${HEIGHT}" fill="#ffffff"/>`,
    ...bandOf(figure, across),
    ...gridOf(x, y, across, down),
    ...curves.flatMap((curve, place) =>
      curveOf({ ...curve, points: curve.points.filter(inside) }, place, across, down),
    ),
    `<text x="${round((LEFT + WIDTH - RIGHT) / 2)}" y="${HEIGHT - 10}" text-anchor="middle" fill="#1b2125">${escaped(x.label)}</text>`,
    `<text transform="translate(16 ${round((TOP + HEIGHT - BOTTOM) / 2)}) rotate(-90)" text-anchor="middle" fill="#1b2125">${escaped(y.label)}</text>`,
    "</svg>",
    "",
  ].join("\n");
}

function bandOf({ band }: Figure, across: (value: number) => number): string[] {
  if (!band) return [];
  const [left, right] = [across(band.from), across(band.to)];
  return [
    `<rect x="${round(left)}" y="${TOP}" width="${round(right - left)}" height="${HEIGHT - TOP - BOTTOM}" fill="#ebe9e2"/>`,
    `<text x="${round((left + right) / 2)}" y="${TOP + 14}" text-anchor="middle" fill="#545d64">${escaped(band.name)}</text>`,
  ];
}

function gridOf(x: Axis, y: Axis, across: (value: number) => number, down: (value: number) => number): string[] {
  return [
    ...ticks(y).flatMap((at) => [
      `<path d="M${LEFT} ${round(down(at))}H${WIDTH - RIGHT}" stroke="#d6d3c8"/>`,
      `<text x="${LEFT - 6}" y="${round(down(at) + 4)}" text-anchor="end" fill="#545d64">${words(at)}</text>`,
    ]),
    ...ticks(x).map(
      (at) =>
        `<text x="${round(across(at))}" y="${HEIGHT - BOTTOM + 16}" text-anchor="middle" fill="#545d64">${words(at)}</text>`,
    ),
    `<path d="M${LEFT} ${TOP}V${HEIGHT - BOTTOM}H${WIDTH - RIGHT}" fill="none" stroke="#545d64"/>`,
  ];
}

function ticks({ from, to, step }: Axis): number[] {
  const count = Math.round((to - from) / step);
  return Array.from({ length: count + 1 }, (_, place) => from + place * step);
}

const words = (value: number): string => (Math.round(value * 1000) / 1000).toLocaleString("en-US");

function curveOf(
  { name, points, dash, dots }: Curve,
  place: number,
  across: (value: number) => number,
  down: (value: number) => number,
): string[] {
  const ink = INKS[place % INKS.length] ?? "#1b2125";
  const key = TOP + 12 + place * 20;
  const left = WIDTH - RIGHT + 10;
  const stroke = `fill="none" stroke="${ink}" stroke-width="2" stroke-dasharray="${dash ?? DASHES[place % DASHES.length] ?? ""}"`;
  const drawn = dots
    ? points.map(([px, py]) => `<circle cx="${round(across(px))}" cy="${round(down(py))}" r="3.5" fill="${ink}"/>`)
    : [`<path d="M${points.map(([px, py]) => `${round(across(px))} ${round(down(py))}`).join("L")}" ${stroke}/>`];
  const sample = dots
    ? `<circle cx="${left + 11}" cy="${key - 4}" r="3.5" fill="${ink}"/>`
    : `<path d="M${left} ${key - 4}h22" ${stroke}/>`;
  return [...drawn, sample, `<text x="${left + 28}" y="${key}" fill="#1b2125">${escaped(name)}</text>`];
}

/** Evenly spaced numbers, both ends included. */
export const steps = (from: number, to: number, count: number): number[] =>
  Array.from({ length: count + 1 }, (_, place) => from + ((to - from) * place) / count);
