import type { Evidence } from "@/lib/domain/evidence";
import { type DocumentProblem, pathOf, type Step } from "./problem";

/** Two things under one name could not be told apart, and one of them would silently not count. */
export function identityProblems({ observations, checks, events, workstation }: Evidence): DocumentProblem[] {
  const record = [
    ...twice(["observations"], observations, "id"),
    ...twice(["checks"], checks, "id"),
    ...twice(["events"], events, "id"),
  ];
  if (workstation === null) return record;
  const { fitted, holds, faults, recalls, model } = workstation;
  const at = (...steps: Step[]): Step[] => ["workstation", ...steps];
  return [
    ...record,
    ...twice(at("fitted", "cylinders"), fitted.cylinders, "id"),
    ...twice(at("fitted", "cylinders"), fitted.cylinders, "position"),
    ...twice(at("fitted", "vaporizers"), fitted.vaporizers, "id"),
    ...twice(at("fitted", "vaporizers"), fitted.vaporizers, "mount"),
    ...twice(at("fitted", "absorbent"), fitted.absorbent, "id"),
    ...twice(at("fitted", "absorbent"), fitted.absorbent, "position"),
    ...twice(at("model", "yokes"), model.yokes, "position"),
    ...twice(at("holds"), holds, "id"),
    ...twice(at("faults"), faults, "id"),
    ...twice(at("recalls"), recalls, "id"),
  ];
}

function twice<Field extends string>(
  list: readonly Step[],
  things: readonly Readonly<Record<Field, string>>[],
  field: Field,
): DocumentProblem[] {
  const first = new Map<string, number>();
  const problems: DocumentProblem[] = [];
  things.forEach((thing, place) => {
    const value = thing[field];
    const earlier = first.get(value);
    if (earlier === undefined) {
      first.set(value, place);
      return;
    }
    const message = `stands already at ${pathOf([...list, earlier, field])}; each needs its own`;
    problems.push({ path: pathOf([...list, place, field]), value, message });
  });
  return problems;
}
