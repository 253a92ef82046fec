import type { Actor } from "@/lib/auth/actor";
import { scopeOf } from "@/lib/auth/actor";
import { importDepartment } from "@/lib/commands/import-department";
import { signCheck } from "@/lib/commands/sign-check";
import { startCheck } from "@/lib/commands/start-check";
import { answerRest } from "@/tests/support/room-work";
import type { SmallDepartment } from "@/tests/support/small-department";

/** A spare workstation that suits any room of the department, another one that nobody checks, and parts in the workroom. */
const FILES = {
  workstations: [
    "tag,serial,model,room,store",
    "SP-01,MB40-90001,Marrowby 40,,Workroom",
    "SP-02,MB40-90002,Marrowby 40,,Cylinder store",
  ],
  cylinders: [
    "serial,gas,scheme,size,water capacity L,rated contents L,rated pressure,rated pressure unit,expiry,retest due,workstation,yoke,store,contents",
    "OX-90001,oxygen,US,E,4.8,660,1900,psi,,,SP-01,1,,in use",
    "OX-90002,oxygen,US,E,4.8,660,1900,psi,,,SP-02,1,,in use",
    "OX-90003,oxygen,US,E,4.8,660,1900,psi,,,,,Cylinder store,full",
  ],
  vaporizers: [
    "tag,agent,filler,workstation,mount,store,calibration due,window to",
    "VP-90,sevoflurane,keyed,SP-01,1,,,",
    "VP-91,sevoflurane,keyed,,,Workroom,,",
    "VP-92,isoflurane,keyed,,,Workroom,,",
  ],
  absorbent: [
    "tag,product,indicator,reverts,strong base,litres per 100 g,mass g,workstation,canister,store",
    "AB-90,Calmora violet,yes,yes,no,12,1000,SP-01,1,",
    "AB-91,Calmora violet,yes,yes,no,12,1000,,,Workroom",
  ],
  sensors: ["tag,kind,workstation,store", "OS-90,galvanic,SP-01,", "OS-91,galvanic,,Workroom"],
};

export async function addSpares(department: SmallDepartment, checkedBy: Actor): Promise<void> {
  const files = Object.fromEntries(Object.entries(FILES).map(([file, lines]) => [file, lines.join("\n")]));
  await department.must(importDepartment, { files }, department.admin);
  const spare = await department.database.inScope(scopeOf(checkedBy), (tx) =>
    tx.workstation.findFirst({ where: { tag: "SP-01" } }),
  );
  if (!spare) throw new Error("the spare was not imported");
  const { checkId } = await department.must(startCheck, { workstationId: spare.id, kind: "daily" }, checkedBy);
  const { version } = await answerRest(department, checkId, checkedBy);
  await department.must(signCheck, { checkId, seenVersion: version }, checkedBy);
}
