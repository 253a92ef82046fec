/**
 * Numbers that carry their unit in their type, for formulas: a litre cannot be added to a minute by mistake, and an absolute pressure
 * cannot stand where a gauge pressure is meant. Data that travels (evidence, settings, answers) uses `Quantity` of quantity.ts.
 */
declare const measure: unique symbol;
type Measure<U extends string> = number & { readonly [measure]: U };

export type Celsius = Measure<"C">;
export type Kelvin = Measure<"K">;
/** Above vacuum. */
export type PascalAbsolute = Measure<"Pa(abs)">;
/** Above ambient, as a cylinder gauge shows it. */
export type PascalGauge = Measure<"Pa(g)">;
export type MolPerCubicMetre = Measure<"mol/m3">;
export type Litre = Measure<"L">;
export type Kilogram = Measure<"kg">;
export type Gram = Measure<"g">;
export type LitrePerMinute = Measure<"L/min">;
export type MillilitrePerMinute = Measure<"mL/min">;
export type MillilitrePerHour = Measure<"mL/h">;
export type Millilitre = Measure<"mL">;
export type Minute = Measure<"min">;
export type Hour = Measure<"h">;
export type Day = Measure<"d">;
export type Percent = Measure<"%">;
export type PercentHour = Measure<"%h">;
export type LitrePer100Gram = Measure<"L/100 g">;

/** The one kind of constructor: finite, or it is not a measurement. */
const made =
  <M extends Measure<string>>(unit: string) =>
  (value: number): M => {
    if (!Number.isFinite(value)) throw new RangeError(`${value} is not a number of ${unit}`);
    return value as M;
  };

export const celsius = made<Celsius>("C");
export const kelvin = made<Kelvin>("K");
export const pascalAbsolute = made<PascalAbsolute>("Pa(abs)");
export const pascalGauge = made<PascalGauge>("Pa(g)");
export const molPerCubicMetre = made<MolPerCubicMetre>("mol/m3");
export const litre = made<Litre>("L");
export const kilogram = made<Kilogram>("kg");
export const gram = made<Gram>("g");
export const litrePerMinute = made<LitrePerMinute>("L/min");
export const millilitrePerMinute = made<MillilitrePerMinute>("mL/min");
export const millilitrePerHour = made<MillilitrePerHour>("mL/h");
export const millilitre = made<Millilitre>("mL");
export const minute = made<Minute>("min");
export const hour = made<Hour>("h");
export const day = made<Day>("d");
export const percent = made<Percent>("%");
export const percentHour = made<PercentHour>("%h");
export const litrePer100Gram = made<LitrePer100Gram>("L/100 g");
