import { describe, expect, it } from "vitest";
import { readCsv } from "@/lib/schemas/import-csv";
import { readDepartment } from "@/lib/schemas/import-rows";
import { onlyProblem, problemsOf, TODAY, templates, templateWith } from "./import-files";

const rooms = (text: string) => readDepartment({ stores: text }, TODAY).rows.stores;

describe("a file's text", () => {
  it.each([
    ["comma", "name\nWorkroom\n"],
    ["byte order mark", "\uFEFFname\nWorkroom\n"],
    ["Windows line ends", "name\r\nWorkroom\r\n"],
    ["old Mac line ends", "name\rWorkroom\r"],
    ["no line end at the end", "name\nWorkroom"],
    ["empty lines and rows of separators", "\n\nname\n\n,\nWorkroom\n\n"],
    ["outer spaces and another letter case in the header", " Name \n  Workroom "],
    ["quoted", '"name"\n"Workroom"\n'],
  ])("is read with %s", (_, text) => {
    expect(rooms(text).map(({ name }) => name)).toEqual(["Workroom"]);
  });

  it("may use semicolons, which the header decides, so that a comma in a cell is text", () => {
    const read = readDepartment({ suites: "name;walking order\nEast, old wing;3\n" }, TODAY);
    expect(read.problems).toEqual([]);
    expect(read.rows.suites).toEqual([{ line: 2, name: "East, old wing", walkingOrder: 3 }]);
  });

  it("keeps separators and quotes inside a quoted cell", () => {
    expect(rooms('name\n"Store ""B"", left"\n')[0]?.name).toBe('Store "B", left');
  });

  it("counts lines as an editor shows them, over empty lines and line breaks in cells", () => {
    const read = readCsv('name;note\r\n\r\nA;"two\r\nlines"\r\nB;x\r\n');
    expect(read).toMatchObject({ ok: true, table: { records: [{ line: 3 }, { line: 5 }] } });
  });

  it("is refused when it was not UTF-8, at the line where it shows", () => {
    const latin1 = new TextDecoder().decode(new Uint8Array([...Buffer.from("name\nWorkroom\nDep"), 0xf3, 0x74]));
    expect(onlyProblem({ stores: latin1 })).toMatchObject({
      line: 3,
      message: expect.stringMatching(/not UTF-8.*Save it as CSV UTF-8/),
    });
  });

  it.each([
    ["a quote that is never closed, at the line where its row begins", 'name\nA\n"B\nC\n', 3, /never closed/],
    ["a quote in the middle of a cell", 'name\nA\nB"x\n', 3, /middle of a cell/],
    ["an empty file", "", 1, /file is empty/],
  ])("is refused with %s", (_, text, line, message) => {
    expect(onlyProblem({ stores: text })).toMatchObject({
      file: "stores",
      line,
      message: expect.stringMatching(message),
    });
  });

  it("names the row that has more cells than the header", () => {
    expect(onlyProblem({ suites: "name,walking order\nA,1\nB, C,2\n" })).toMatchObject({
      line: 3,
      message: expect.stringMatching(/3 cells and the header 2/),
    });
  });
});

describe("a file's columns", () => {
  it("names an unknown column and the one probably meant", () => {
    const [problem] = problemsOf({ ...templates(), suites: "name,walkng order\nMain suite,1\nDay surgery,2\n" });
    expect(problem).toMatchObject({
      file: "suites",
      line: 1,
      column: "walkng order",
      message: expect.stringContaining('did you mean "walking order"?'),
    });
  });

  it("lists the known columns when none is near", () => {
    expect(onlyProblem({ stores: "name,colour\nA,red\n" })).toMatchObject({
      column: "colour",
      message: 'There is no column "colour" in stores. Its columns are: name, suite, walking order.',
    });
  });

  it("names a missing column, and does not go on to blame every reference into that file", () => {
    expect(onlyProblem({ ...templates(), suites: "name\nMain suite\nDay surgery\n" })).toMatchObject({
      file: "suites",
      line: 1,
      column: "walking order",
      value: null,
    });
  });

  it("names a column that stands twice", () => {
    expect(onlyProblem({ stores: "name,Name\nA,B\n" })).toMatchObject({
      column: "Name",
      message: expect.stringContaining("stands twice"),
    });
  });

  it("without a name are nobody's business while they are empty", () => {
    expect(problemsOf({ stores: "name,,\nA,,\nB,,,\n" })).toEqual([]);
    expect(onlyProblem({ stores: "name,\nA,x\n" })).toMatchObject({
      column: "column 2",
      message: expect.stringContaining("no name"),
    });
  });

  it("may leave out those whose cells may be empty", () => {
    const read = readDepartment({ list: "date,room\ntoday,OR 1\n" }, TODAY);
    expect(read.problems).toEqual([]);
    expect(read.rows.list).toEqual([
      { line: 2, date: TODAY, room: "OR 1", firstCase: null, ends: null, needs: [], setUpMinutes: 0 },
    ]);
  });
});

describe("a cell", () => {
  it.each([
    [
      "a decimal comma, by name",
      "cylinders",
      ",4.8,",
      ',"4,8",',
      "water capacity L",
      "4,8",
      "4,8 has a decimal comma; write 4.8.",
    ],
    [
      "a thousands comma",
      "cylinders",
      ",1900,",
      ',"1,900",',
      "rated pressure",
      "1,900",
      /1,900 has a comma; write 1900/,
    ],
    ["text for a number", "cylinders", ",660,", ",lots,", "rated contents L", "lots", /"lots" is not a number/],
    ["a negative number", "cylinders", ",660,", ",-660,", "rated contents L", "-660", /must be from 1 to/],
    [
      "20,000 psi",
      "cylinders",
      ",1900,psi,",
      ",20000,psi,",
      "rated pressure",
      "20000",
      /20,000 psi is not the pressure of a full cylinder, which is between 290 and 4,496 psi/,
    ],
    [
      "psi written for bar",
      "cylinders",
      ",1900,psi,",
      ",1900,bar,",
      "rated pressure",
      "1900",
      /between 20 and 310 bar/,
    ],
    ["half a walking step", "suites", "Main suite,1", "Main suite,1.5", "walking order", "1.5", /whole number/],
    [
      "a gas nobody pipes",
      "rooms",
      "oxygen|air|nitrous oxide",
      "oxygen|helium",
      "piped gases",
      "oxygen|helium",
      /"helium" is not known here; write any of oxygen, air or nitrous oxide/,
    ],
    ["neither yes nor no", "rooms", ",yes,active", ",maybe,active", "vacuum", "maybe", /must be yes or no/],
    [
      "a word that is no leak test",
      "models",
      "galvanic,2",
      "optical,2",
      "oxygen sensor",
      "optical",
      /write galvanic or paramagnetic/,
    ],
    [
      "a yoke without a gas",
      "models",
      "1:oxygen|2:nitrous oxide",
      "1|2:nitrous oxide",
      "yokes",
      "1|2:nitrous oxide",
      /"1" is not a yoke; write its position, a colon and its gas/,
    ],
    [
      "one yoke twice",
      "models",
      "1:oxygen|2:nitrous oxide",
      "1:oxygen|1:air",
      "yokes",
      "1:oxygen|1:air",
      /yoke 1 twice/,
    ],
    [
      "an item no check has",
      "models",
      "apl|flow-sensor",
      "flow-sensr",
      "self-test covers",
      "flow-sensr",
      /did you mean flow-sensor\?/,
    ],
    ["a date of another country", "service", "2031-05-12", "12.05.2031", "due", "12.05.2031", /YYYY-MM-DD/],
    ["a day that does not exist", "service", "2031-05-12", "2031-02-30", "due", "2031-02-30", /is not a date/],
    ["a time without its minutes", "list", "07:30", "7h30", "first case", "7h30", /HH:MM/],
    ["a role nobody has", "people", ",technician,", ",janitor,", "roles", "janitor", /technician/],
    ["an empty cell that must be filled in", "workstations", ",MB40-10211,", ",,", "serial", "", /"serial" is empty/],
  ] as const)("is refused with %s", (_, file, from, to, column, value, message) => {
    const files = { ...templates(), [file]: templateWith(file, from, to) };
    const problem = problemsOf(files).find((one) => one.file === file);
    expect(problem).toMatchObject({ line: expect.any(Number), column, value });
    expect(problem?.message).toMatch(message);
  });

  it("never repeats a password, even one that is refused", () => {
    const people = templateWith("people", "change me at once", "hush");
    const problem = onlyProblem({ ...templates(), people });
    expect(problem).toMatchObject({
      column: "initial password",
      value: null,
      message: expect.stringMatching(/at least 12 characters/),
    });
    expect(JSON.stringify(problem)).not.toContain("hush");
  });

  it("may count a date from the day of the import, so that an example can be imported on any day", () => {
    const read = readDepartment(
      { service: "workstation,plan,due,window from,window to\nA,p,today+8,Today-2,today\n" },
      TODAY,
    );
    expect(read.rows.service[0]).toMatchObject({ due: "2026-12-02", windowFrom: "2026-11-22", windowTo: "2026-11-24" });
  });

  it("may write the words of the trade with spaces, hyphens or capitals", () => {
    const { rows } = readDepartment(
      { models: templateWith("models", "ascending bellows", "Ascending-Bellows") },
      TODAY,
    );
    expect(rows.models[0]?.drive).toBe("ascending-bellows");
  });
});

describe("all of it", () => {
  it("is told at once, file by file and line by line", () => {
    const problems = problemsOf({
      ...templates(),
      stores: "name\nWorkroom\nCylinder store\nworkroom\n",
      suites: "name,walking order\nMain suite,one\nDay surgery,two\n",
    });
    expect(problems.map(({ file, line }) => [file, line])).toEqual([
      ["suites", 2],
      ["suites", 3],
      ["stores", 4],
    ]);
  });
});
