import { describe, expect, it } from "vitest";
import { instant, localDate, MINUTE } from "@/lib/units/time";
import { Agenda, type Doing } from "@/seed/agenda";
import { isWeekend, listFile, listOf } from "@/seed/day-list";
import { chanceFrom } from "@/seed/random";

const START = instant(0);
const at = (minutes: number) => instant(START + minutes * MINUTE);

describe("chance", () => {
  it("comes out the same for the same text, and differently for another", () => {
    const draw = (text: string) => {
      const chance = chanceFrom(text);
      return [chance.next(), chance.whole(1, 6), chance.pick(["a", "b", "c"]), chance.between(2, 3)];
    };
    expect(draw("Wednesday")).toEqual(draw("Wednesday"));
    expect(draw("Wednesday")).not.toEqual(draw("Thursday"));
  });

  it("stays within its bounds and uses all of them", () => {
    const chance = chanceFrom("dice");
    const thrown = Array.from({ length: 600 }, () => chance.whole(1, 6));
    expect(new Set(thrown)).toEqual(new Set([1, 2, 3, 4, 5, 6]));
  });
});

describe("an agenda", () => {
  const work = (said: string[], name: string, ...waits: number[]) =>
    (async function* (): Doing {
      said.push(`${name} begins`);
      for (const wait of waits) {
        yield at(wait);
        said.push(`${name} at ${wait}`);
      }
    })();

  it("lets several people work at once, in the order of time", async () => {
    const said: string[] = [];
    const agenda = new Agenda();
    agenda.add(at(0), work(said, "Noor", 10, 30));
    agenda.add(at(5), work(said, "Piet", 12, 20));
    agenda.once(at(11), async () => said.push("a bell"));
    await agenda.run(at(60));
    expect(said).toEqual([
      "Noor begins",
      "Piet begins",
      "Noor at 10",
      "a bell",
      "Piet at 12",
      "Piet at 20",
      "Noor at 30",
    ]);
  });

  it("leaves undone what comes later, and does what is due now", async () => {
    const said: string[] = [];
    const agenda = new Agenda();
    agenda.add(at(0), work(said, "Sam", 10, 11));
    await agenda.run(at(10));
    expect(said).toEqual(["Sam begins", "Sam at 10"]);
    await agenda.run(at(11));
    expect(said).toHaveLength(3);
  });
});

describe("the lists", () => {
  const wednesday = localDate("2026-03-04");
  const sunday = localDate("2026-03-08");

  it("are full on a working day and short at the weekend", () => {
    expect(listOf("us-quillhaven", wednesday).length).toBeGreaterThanOrEqual(20);
    expect(listOf("us-quillhaven", sunday).map(({ room }) => room)).toEqual(["OR 1", "LD 1", "LD 2"]);
    expect(listOf("us-quillhaven", wednesday)).toEqual(listOf("us-quillhaven", wednesday));
  });

  it("can be imported: a header and a row a room", () => {
    const rows = listFile(wednesday, listOf("iso-saltmere", wednesday)).trim().split("\n");
    expect(rows[0]).toBe("date,room,first case,ends,needs,set-up minutes");
    expect(rows[1]).toMatch(/^2026-03-04,Theatre 1,\d\d:\d\d,17:00,/);
    expect(rows).toHaveLength(4);
  });

  it("know the weekend", () => {
    expect([wednesday, sunday].map(isWeekend)).toEqual([false, true]);
  });
});
