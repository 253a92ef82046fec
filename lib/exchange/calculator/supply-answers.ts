import { departmentEndurance } from "@/lib/calculations/department-endurance";
import { driveGasFromReserve } from "@/lib/calculations/drive-gas";
import { endurance } from "@/lib/calculations/endurance";
import * as schemas from "@/lib/schemas/calculator/supply";
import { litre, litrePerMinute } from "@/lib/units/measure";
import { tell } from "./answer";
import { calculation } from "./calculation";

export const enduranceAnswer = calculation({
  name: "endurance",
  title: "How long a reserve lasts",
  group: "gas",
  about:
    "Minutes by hand and on the ventilator, to the alarm and to the residual. A drive takes more with stiff lungs.",
  schema: schemas.endurance,
  example: { litres: 340, freshGasLPerMin: 2, driveGasLPerMin: 7, alarmLitres: 68, residualLitres: 0 },
  run: ({ litres, freshGasLPerMin, driveGasLPerMin, alarmLitres, residualLitres }) =>
    tell(
      endurance({
        contents: litre(litres),
        freshGas: litrePerMinute(freshGasLPerMin),
        driveGas: litrePerMinute(driveGasLPerMin),
        alarm: alarmLitres === undefined ? undefined : litre(alarmLitres),
        residual: litre(residualLitres),
      }),
      "min",
    ),
});

export const departmentEnduranceAnswer = calculation({
  name: "department-endurance",
  title: "How long a department lasts on cylinders",
  group: "gas",
  about: "Each room on its own cylinders and all with the store shared out, which is the most there can be.",
  schema: schemas.departmentEndurance,
  example: {
    rooms: [
      { room: "A1", litres: 340, flowLPerMin: 9 },
      { room: "A2", litres: 660, flowLPerMin: 2 },
    ],
    storeLitres: 1320,
  },
  run: ({ rooms, storeLitres }) =>
    tell(
      departmentEndurance(
        rooms.map(({ room, litres, flowLPerMin, residualLitres }) => ({
          room,
          contents: litre(litres),
          flow: litrePerMinute(flowLPerMin),
          residual: litre(residualLitres),
        })),
        litre(storeLitres),
      ),
      "min",
      {
        value: ({ rooms: each, firstRoomOut, allRooms, fromStore, leftInRooms }) => ({
          rooms: each,
          firstRoomOut,
          allRooms,
          fromStoreL: fromStore,
          leftInRoomsL: leftInRooms,
        }),
      },
    ),
});

export const driveGasAnswer = calculation({
  name: "drive-gas",
  title: "Oxygen that the ventilator's drive takes",
  group: "gas",
  about: "Drive gas taken from the oxygen reserve. A measured figure is better than the rule of thumb.",
  schema: schemas.driveGas,
  example: { drive: "gas-driven", source: "oxygen", minuteVentilationLPerMin: 7 },
  run: ({ drive, source, minuteVentilationLPerMin, measuredLPerMin }) =>
    tell(
      driveGasFromReserve({
        drive,
        source,
        minuteVentilation: litrePerMinute(minuteVentilationLPerMin),
        measured: measuredLPerMin === undefined ? undefined : litrePerMinute(measuredLPerMin),
      }),
      "L/min",
    ),
});
