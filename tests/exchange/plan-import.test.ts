import { describe, expect, it } from "vitest";
import {
  example,
  NOTHING_THERE,
  onlyProblem,
  plan,
  problemsOf,
  templateDepartment,
  templates,
  templateWith,
} from "./import-files";

const cylinder = (serial: string, gas: string, where: string) =>
  `${serial},${gas},US,E,4.8,660,1900,psi,${where},in use\n`;
const CYLINDERS =
  "serial,gas,scheme,size,water capacity L,rated contents L,rated pressure,rated pressure unit,workstation,yoke,store,contents\n";

describe("templates and examples", () => {
  it("all templates together are a department without a problem", () => {
    const { problems, counts } = plan(templates());
    expect(problems).toEqual([]);
    expect(counts.every(({ rows, added }) => rows === 2 && added === 2)).toBe(true);
    expect(counts).toHaveLength(13);
  });

  it("the US example has 24 rooms in 4 suites and 2 spares, in psi", () => {
    const { problems, plan: made } = plan(example("us-quillhaven"));
    expect(problems).toEqual([]);
    expect(made.records.rooms).toHaveLength(24);
    expect(made.records.suites).toHaveLength(4);
    expect(made.placed.filter(({ storeId }) => storeId !== null)).toHaveLength(2);
    expect(
      new Set(made.records.cylinders.map(({ scheme, ratedPressureUnit }) => `${scheme} ${ratedPressureUnit}`)),
    ).toEqual(new Set(["US psi"]));
  });

  it("the ISO example has 3 rooms, in bar", () => {
    const { problems, plan: made } = plan(example("iso-saltmere"));
    expect(problems).toEqual([]);
    expect(made.records.rooms).toHaveLength(3);
    expect(
      new Set(made.records.cylinders.map(({ scheme, ratedPressureUnit }) => `${scheme} ${ratedPressureUnit}`)),
    ).toEqual(new Set(["ISO bar"]));
  });

  it("a department imported again is the same, row by row", () => {
    const { counts, plan: made } = plan(templates(), templateDepartment());
    expect(counts.every(({ added, changed, same }) => added === 0 && changed === 0 && same === 2)).toBe(true);
    expect(Object.values(made.records).flat()).toEqual([]);
    expect([...made.placed, ...made.fitted, ...made.takenOff, ...made.events, ...made.newPeople]).toEqual([]);
  });
});

describe("references", () => {
  it("an unknown room in the list is named, with the one probably meant", () => {
    expect(onlyProblem({ ...templates(), list: templateWith("list", "OR 1", "OR 11") })).toMatchObject({
      file: "list",
      line: 2,
      column: "room",
      value: "OR 11",
      message: 'No room is called "OR 11". Did you mean "OR 1"?',
    });
  });

  it("are found among what is there already, without the file that made it", () => {
    const { list } = templates();
    expect(problemsOf({ list })).toHaveLength(2);
    expect(problemsOf({ list }, templateDepartment())).toEqual([]);
  });

  it("are found whatever their letter case", () => {
    expect(problemsOf({ ...templates(), list: templateWith("list", "OR 1", "or 1") })).toEqual([]);
  });

  it("into a row that has a problem of its own are not blamed as well", () => {
    expect(
      onlyProblem({ ...templates(), rooms: templateWith("rooms", ",yes,active", ",perhaps,active") }),
    ).toMatchObject({ file: "rooms", line: 2, column: "vacuum" });
  });

  it("twice the same name in a file names both lines", () => {
    expect(onlyProblem({ stores: "name\nEast\nWest\neast\n" })).toMatchObject({
      line: 4,
      message: '"east" stands on line 2 and on line 4. Keep one of them.',
    });
  });
});

describe("where things stand", () => {
  it("a workstation needs one place and no more", () => {
    const both = templateWith("workstations", "Marrowby 40,OR 1,", "Marrowby 40,OR 1,Workroom");
    expect(onlyProblem({ ...templates(), workstations: both }).message).toMatch(
      /cannot stand in a room and in a store/,
    );
    const none = templateWith("workstations", "Dovelin P2,,Workroom", "Dovelin P2,,");
    expect(onlyProblem({ ...templates(), workstations: none }).message).toMatch(/Say where AW-02 stands/);
  });

  it("two workstations in one room name both lines", () => {
    const workstations = templateWith("workstations", "Dovelin P2,,Workroom", "Dovelin P2,OR 1,");
    expect(onlyProblem({ ...templates(), workstations }).message).toBe(
      "OR 1 is given to AW-01 on line 2 and to AW-02 on line 3. A room holds one workstation.",
    );
  });

  it("a room that is taken already says by whom", () => {
    const workstations = "tag,serial,model,room\nAW-02,P2-00874,Dovelin P2,OR 1\n";
    expect(onlyProblem({ workstations }, templateDepartment()).message).toMatch(/OR 1 already holds AW-01/);
  });

  it("two workstations may change places in one import", () => {
    const workstations =
      "tag,serial,model,room,store\nAW-01,MB40-10211,Marrowby 40,,Workroom\nAW-02,P2-00874,Dovelin P2,OR 1,\n";
    const { problems, plan: made } = plan({ workstations }, templateDepartment());
    expect(problems).toEqual([]);
    expect(made.placed.map(({ tag }) => tag)).toEqual(["AW-01", "AW-02"]);
    expect(made.events).toMatchObject([{ kind: "moved-in", roomId: expect.any(String) }]);
  });

  it("nothing is moved out of a room with a case in it", () => {
    const there = templateDepartment();
    const roomsInUse = there.records.rooms.filter(({ name }) => name === "OR 1").map(({ id }) => id);
    const workstations = "tag,serial,model,store\nAW-01,MB40-10211,Marrowby 40,Workroom\n";
    expect(onlyProblem({ workstations }, { ...there, roomsInUse }).message).toMatch(/OR 1 has a case in it/);
  });

  it("one serial number of a model belongs to one workstation", () => {
    const workstations = "tag,serial,model,store\nAW-09,P2-00874,Dovelin P2,Workroom\n";
    expect(onlyProblem({ workstations }, templateDepartment()).message).toMatch(/belongs to AW-02 already/);
  });
});

describe("what is fitted", () => {
  it("an oxygen cylinder on an air yoke is refused with both positions of the pin index", () => {
    const models = templateWith("models", "1:oxygen|2:nitrous oxide", "1:air|2:nitrous oxide");
    const problem = onlyProblem({ ...templates(), models });
    expect(problem).toMatchObject({ file: "cylinders", line: 2, column: "yoke", value: "1" });
    expect(problem.message).toMatch(/2-5/);
    expect(problem.message).toMatch(/1-5/);
  });

  it("a yoke the model does not have is named with those it has", () => {
    const cylinders = CYLINDERS + cylinder("OX-1", "oxygen", "AW-01,4,");
    expect(onlyProblem({ ...templates(), cylinders }).message).toBe(
      "AW-01 has no yoke 4; its yokes are 1 (oxygen), 2 (nitrous oxide).",
    );
  });

  it("two cylinders on one yoke name both lines", () => {
    const cylinders = CYLINDERS + cylinder("OX-1", "oxygen", "AW-01,1,") + cylinder("OX-2", "oxygen", "AW-01,1,");
    expect(onlyProblem({ ...templates(), cylinders })).toMatchObject({
      line: 3,
      message: "Cylinder OX-1 on line 2 and Cylinder OX-2 on line 3 are both on yoke 1 of AW-01, which holds one.",
    });
  });

  it("a yoke that is taken already says by what", () => {
    const cylinders = CYLINDERS + cylinder("OX-9", "oxygen", "AW-01,1,");
    expect(onlyProblem({ cylinders }, templateDepartment()).message).toMatch(
      /Cylinder OX-40117 is on yoke 1 of AW-01 already/,
    );
  });

  it("a vaporizer mounted twice names both lines", () => {
    const vaporizers =
      "tag,agent,filler,workstation,mount,store\nVP-1,sevoflurane,keyed,AW-01,1,\nVP-1,sevoflurane,keyed,AW-01,2,\n";
    expect(onlyProblem({ ...templates(), vaporizers }).message).toBe(
      '"VP-1" stands on line 2 and on line 3. Keep one of them.',
    );
  });

  it("two vaporizers on one mount name both lines", () => {
    const vaporizers =
      "tag,agent,filler,workstation,mount,store\nVP-1,sevoflurane,keyed,AW-01,1,\nVP-2,desflurane,keyed,AW-01,1,\n";
    expect(onlyProblem({ ...templates(), vaporizers }).message).toMatch(
      /Vaporizer VP-1 on line 2 and Vaporizer VP-2 on line 3 are both on mount 1 of AW-01/,
    );
  });

  it("a part without a place, with two, or without its position is refused", () => {
    const at = (where: string) =>
      onlyProblem({ ...templates(), cylinders: CYLINDERS + cylinder("OX-1", "oxygen", where) }).message;
    expect(at(",,")).toMatch(/Say where it is/);
    expect(at("AW-01,1,Workroom")).toMatch(/not both/);
    expect(at("AW-01,,")).toMatch(/which yoke of AW-01/);
  });

  it("a sensor of another kind than the model measures with is refused", () => {
    expect(
      onlyProblem({ ...templates(), sensors: templateWith("sensors", "OS-01,galvanic", "OS-01,paramagnetic") }).message,
    ).toMatch(/AW-01 measures oxygen with a galvanic sensor/);
  });

  it("a model that loses a yoke is refused at its own line while a cylinder hangs there", () => {
    const models = templateWith("models", "1:oxygen|2:nitrous oxide", "2:nitrous oxide");
    expect(onlyProblem({ models }, templateDepartment())).toMatchObject({
      file: "models",
      line: 2,
      message: expect.stringMatching(/Cylinder OX-40117 is fitted there and would no longer fit/),
    });
  });

  it("a cylinder refitted comes off and another goes on; since when it is fitted makes its recheck due, without an event", () => {
    const there = templateDepartment();
    const cylinders =
      CYLINDERS + cylinder("OX-40117", "oxygen", ",,Workroom") + cylinder("OX-40118", "oxygen", "AW-01,1,");
    const { problems, plan: made } = plan({ cylinders }, there);
    const idOf = (serial: string) => there.records.cylinders.find((one) => one.serial === serial)?.id;
    expect(problems).toEqual([]);
    expect(made.takenOff).toEqual([idOf("OX-40117")]);
    expect(made.fitted).toMatchObject([{ kind: "cylinder", itemId: idOf("OX-40118"), position: "1" }]);
    expect(made.events).toEqual([]);
  });
});

describe("dates, people and the list", () => {
  it("a service window holds its own date", () => {
    const service = "workstation,plan,due,window from,window to\nAW-01,yearly,2027-03-01,2027-03-02,2027-02-27\n";
    expect(problemsOf({ ...templates(), service }).map(({ column }) => column)).toEqual(["window from", "window to"]);
  });

  it("a calibration has both its dates or neither", () => {
    expect(onlyProblem({ ...templates(), vaporizers: templateWith("vaporizers", "today+150", "") }).message).toMatch(
      /or neither/,
    );
  });

  it("a list ends after it begins", () => {
    expect(onlyProblem({ ...templates(), list: templateWith("list", "15:00", "07:30") })).toMatchObject({
      column: "ends",
      value: "07:30",
    });
    expect(onlyProblem({ ...templates(), list: templateWith("list", "07:30,15:00", ",15:00") })).toMatchObject({
      column: "first case",
    });
  });

  it("somebody new needs a first password, and a user id that nobody has", () => {
    expect(onlyProblem({ ...templates(), people: templateWith("people", "change me at once", "") }).message).toMatch(
      /Ines Marsh is new here/,
    );
    expect(onlyProblem(templates(), { ...NOTHING_THERE, userIdsTaken: ["i.marsh"] }).message).toMatch(
      /i.marsh is taken/,
    );
  });

  it("only an administrator imports people", () => {
    const { problems } = plan(templates(), NOTHING_THERE, false);
    expect(problems).toMatchObject([{ file: "people", message: expect.stringMatching(/Only an administrator/) }]);
  });

  it("the last administrator stays one", () => {
    const there = templateDepartment();
    const people = there.records.people.map((person) =>
      person.userId === "i.marsh" ? { ...person, roles: ["administrator"] as const } : person,
    );
    const problem = onlyProblem({ people: templates().people }, { ...there, records: { ...there.records, people } });
    expect(problem.message).toMatch(/Ines Marsh is the last administrator here/);
  });

  it("bellows need a drive gas and a piston has none", () => {
    expect(
      onlyProblem({
        ...templates(),
        models: templateWith("models", "ascending bellows,oxygen", "ascending bellows,none"),
      }).column,
    ).toBe("drive gas");
    expect(onlyProblem({ ...templates(), models: templateWith("models", "piston,none", "piston,air") }).column).toBe(
      "drive gas",
    );
  });
});
