import { importDepartment } from "@/lib/commands/import-department";
import { type SmallDepartment, smallDepartment } from "@/tests/support/small-department";

/** Two more rooms with workstations that have three yokes, one of them for air, and spare cylinders of each gas. */
const MORE = {
  rooms: [
    "name,suite,zone,piped gases,vacuum,waste gas,walking order",
    'OR 2,Main suite,"North wing, level 2",oxygen|air|nitrous oxide,yes,active,2',
    'OR 3,Main suite,"North wing, level 2",oxygen|air|nitrous oxide,yes,active,3',
  ],
  models: [
    "name,maker,drive,drive gas,leak test,oxygen sensor,mounts,yokes,self-test covers,outlet selector,vapor-free minutes",
    "Ostwick A3,Ostwick,ascending bellows,oxygen,bulb,galvanic,2,1:oxygen|2:air|3:oxygen,,no,20",
  ],
  workstations: ["tag,serial,model,room,store", "AW-03,OA3-00301,Ostwick A3,OR 2,", "AW-04,OA3-00302,Ostwick A3,OR 3,"],
  cylinders: [
    "serial,gas,scheme,size,water capacity L,rated contents L,rated pressure,rated pressure unit,expiry,retest due,workstation,yoke,store,contents",
    "OX-50001,oxygen,US,E,4.8,660,1900,psi,,,AW-03,1,,in use",
    "OX-50002,oxygen,US,E,4.8,660,1900,psi,,,AW-04,1,,in use",
    "AI-50001,air,US,E,4.8,625,1900,psi,,,AW-03,2,,in use",
    "OX-50003,oxygen,US,E,4.8,660,1900,psi,,,,,Cylinder store,full",
    "OX-50004,oxygen,US,E,4.8,660,1900,psi,,,,,Cylinder store,full",
    "OX-50005,oxygen,US,E,4.8,660,1900,psi,today-1,,,,Cylinder store,full",
    "OX-50006,oxygen,US,E,4.8,660,1900,psi,,,,,Cylinder store,empty",
    "AI-50002,air,US,E,4.8,625,1900,psi,,,,,Cylinder store,full",
  ],
  vaporizers: [
    "tag,agent,filler,workstation,mount,store,calibration due,window to",
    "VP-03,sevoflurane,keyed,AW-03,1,,,",
    "VP-04,sevoflurane,keyed,AW-04,1,,,",
  ],
  absorbent: [
    "tag,product,indicator,reverts,strong base,litres per 100 g,mass g,workstation,canister,store",
    "AB-03,Calmora violet,yes,yes,no,12,1000,AW-03,1,",
    "AB-04,Calmora violet,yes,yes,no,12,1000,AW-04,1,",
  ],
  sensors: ["tag,kind,workstation,store", "OS-03,galvanic,AW-03,", "OS-04,galvanic,AW-04,"],
  list: [
    "date,room,first case,ends,needs,set-up minutes",
    "today,OR 2,07:30,15:00,volatile|mechanical ventilation,15",
    "today,OR 3,07:30,15:00,volatile|mechanical ventilation,15",
  ],
};

/** The small department with two more rooms, for what takes two of something. */
export async function widerDepartment(at?: string): Promise<SmallDepartment> {
  const department = await smallDepartment(at);
  await widen(department);
  return department;
}

/** The same on a small department that is there already. */
export async function widen(department: SmallDepartment): Promise<void> {
  const files = Object.fromEntries(Object.entries(MORE).map(([name, lines]) => [name, lines.join("\n")]));
  await department.must(importDepartment, { files }, department.admin);
}
