import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { insidesIn, type Person, type ServedDepartment, servedDepartment } from "./served-department";

let served: ServedDepartment;
let rosa: Person;

beforeAll(async () => {
  served = await servedDepartment();
  rosa = await served.person("rosa.osei", ["technician"]);
}, 300_000);
afterAll(() => served.close());

const UNKNOWN = "00000000-0000-4000-8000-000000000000";

describe("whatever is sent", () => {
  it("breaks nothing and shows nothing of the inside", async () => {
    const deep = `${'{"a":'.repeat(50_000)}1${"}".repeat(50_000)}`;
    const bodies = [
      deep,
      `{"workstationId":${deep}}`,
      `{"checkId":"${UNKNOWN}","answers":${deep}}`,
      '{"files":{"rooms":"name\\n\\u0000"}}',
      '{"__proto__":{"reason":"x"}}',
    ];
    const paths = [
      "commands/hold-workstation",
      "commands/record-answers",
      "commands/save-draft",
      "imports/preview",
      "session",
    ];
    for (const path of paths) {
      for (const body of bodies) {
        const answer = await rosa.post(`/api/v1/${path}`, body);
        expect([path, body.slice(0, 30), answer.status]).toEqual([
          path,
          body.slice(0, 30),
          expect.toSatisfy((status: number) => status >= 400 && status < 500),
        ]);
        expect(insidesIn(answer.body)).toEqual([]);
      }
    }
  });

  it("in an address: half an escape, code 0, a path out of the folder", async () => {
    for (const path of [
      "tasks/%00",
      "tasks/%E0%A4%A",
      "tasks/%25",
      "tasks/%2500",
      "rooms/%00",
      "checks/..%2f..%2fetc",
      "imports/templates/..%2f..%2fpackage.json",
      "history?person=%00",
      `history?before=${"9".repeat(30)}`,
    ]) {
      const answer = await rosa.get(`/api/v1/${path}`);
      expect([path, answer.status]).toEqual([
        path,
        expect.toSatisfy((status: number) => status >= 400 && status < 500),
      ]);
      expect(insidesIn(answer.body)).toEqual([]);
    }
  });

  it("with another method than the route has", async () => {
    for (const [path, method] of [
      ["board", "DELETE"],
      ["commands/hold-workstation", "GET"],
      ["history", "POST"],
      ["rooms/x", "PUT"],
    ] as const) {
      const answer = await rosa.ask(`/api/v1/${path}`, { method, headers: { "Content-Length": 0 } });
      expect([path, method, answer.status]).toEqual([path, method, 405]);
    }
  });
});
