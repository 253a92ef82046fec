import { byScheme, inBoth, right, type Script, wrong } from "@/lib/domain/rehearsal-script";

/** Backup ventilation, power, supplies and the monitors. The sights are common practice, no source. */
export const SUPPLY_SCRIPTS: readonly Script[] = [
  {
    item: "self-inflating-bag",
    healthy: right(
      ["Look for it", "It hangs on its hook, with mask and reservoir."],
      ["Block the outlet and squeeze", "It holds; no air escapes."],
      ["Let go", "It fills by itself at once."],
    ),
    faults: [
      wrong(
        "bag-does-not-refill",
        "The self-inflating bag did not refill.",
        "Nobody could have ventilated when the workstation failed.",
        ["Look for it", "It hangs on its hook, with mask and reservoir."],
        ["Block the outlet and squeeze", "It holds; no air escapes."],
        ["Let go", "It stays flat. The intake valve clicks, and nothing comes in."],
      ),
      wrong(
        "bag-absent",
        "There was no self-inflating bag.",
        "The first minute of a failure is spent running for one.",
        ["Look for it", "The hook is empty. There is none in the drawers either."],
      ),
    ],
  },
  {
    item: "separate-oxygen",
    healthy: right(
      ["Look for it", "An oxygen cylinder with a regulator stands in its holder."],
      ["Open it for a moment", "The needle goes to the green end; gas flows at the outlet. You shut it again."],
    ),
    faults: [
      wrong(
        "separate-oxygen-empty",
        "The oxygen cylinder away from the machine was empty.",
        "The self-inflating bag would have had room air alone.",
        ["Look for it", "An oxygen cylinder with a regulator stands in its holder."],
        ["Open it for a moment", "The needle stays at zero. Nothing flows."],
      ),
    ],
  },
  {
    item: "cylinder-key",
    healthy: right(["Look for it", "It hangs on its chain."], ["Try it on a valve", "It fits."]),
    faults: [
      wrong(
        "cylinder-key-missing",
        "The cylinder key was missing.",
        "A full cylinder that nobody can open is no reserve.",
        ["Look for it", "The chain ends in an empty ring."],
      ),
    ],
  },
  {
    item: "suction",
    healthy: {
      truth: { kind: "number", reading: byScheme([340, 480, "mmHg"], [62, 78, "kPa"]) },
      acts: [
        ["Look at line, catheter and canister", "All there; the line reaches the head of the table."],
        ["Full on, block the tube", "The gauge shows {reading}."],
      ],
    },
    faults: [
      {
        id: "suction-weak",
        wrong: "Suction was weak.",
        harm: "An airway that fills could not have been cleared.",
        truth: { kind: "number", reading: byScheme([90, 170, "mmHg"], [14, 26, "kPa"]) },
        acts: [
          ["Look at line, catheter and canister", "All there; the line reaches the head of the table."],
          ["Full on, block the tube", "It hisses at the canister's lid. The gauge shows {reading}."],
        ],
      },
    ],
  },
  {
    item: "mains-power",
    healthy: right(["Follow the cord", "It ends in a wall socket."], ["Switch on", "The mains light is on."]),
    faults: [
      wrong(
        "on-battery",
        "The workstation ran on its battery.",
        "It would have stopped in the middle of a case.",
        ["Follow the cord", "It runs behind the workstation."],
        ["Switch on", "The screen comes up. The mains light stays dark, a battery sign is on."],
      ),
    ],
  },
  {
    item: "capnograph",
    healthy: right(
      ["Breathe into the sample line", "A wave rises and falls back to zero."],
      ["Hold your breath", "The no-breath alarm sounds."],
    ),
    faults: [
      wrong(
        "capnograph-silent",
        "The capnograph's alarm was off.",
        "A disconnection would have been seen late, by chance.",
        ["Breathe into the sample line", "A wave rises and falls back to zero."],
        ["Hold your breath", "The line runs flat. No alarm; a crossed bell stands in the corner."],
      ),
    ],
  },
  {
    item: "cylinder-gauge",
    of: ({ id }) => id === "rehearsal-oxygen",
    healthy: {
      truth: {
        kind: "gauge",
        open: byScheme([1550, 1950, "psi"], [106, 134, "bar"]),
      },
      acts: [
        ["Look at the gauge", "It shows {trapped}. The valve is shut."],
        ["Open the valve slowly and read", "It shows {reading}."],
        ["Shut the valve", "Shut."],
      ],
    },
    faults: [
      {
        id: "trapped-pressure",
        wrong: "The reserve oxygen cylinder was nearly empty: the gauge showed trapped pressure.",
        harm: "Minutes of oxygen instead of an hour when the pipeline fails.",
        truth: {
          kind: "gauge",
          trapped: byScheme([1600, 1900, "psi"], [110, 130, "bar"]),
          open: byScheme([180, 520, "psi"], [12, 36, "bar"]),
        },
        acts: [
          ["Look at the gauge", "It shows {trapped}. The valve is shut."],
          ["Open the valve slowly and read", "The needle falls, and stands at {reading}."],
          ["Shut the valve", "Shut."],
        ],
      },
    ],
  },
  {
    item: "cylinder-gauge",
    of: ({ id }) => id === "rehearsal-nitrous-oxide",
    healthy: {
      truth: {
        kind: "gauge",
        open: byScheme([735, 750, "psi"], [43, 45, "bar"]),
      },
      acts: [
        ["Look at the gauge", "It shows {trapped}. The valve is shut."],
        ["Open the valve slowly and read", "It shows {reading}."],
        ["Shut the valve", "Shut."],
      ],
    },
    faults: [],
  },
  {
    item: "pipeline-pressure",
    healthy: {
      truth: { kind: "number", reading: byScheme([50, 54, "psi"], [410, 450, "kPa"]) },
      acts: [["Cylinders shut, read the gauge", "It shows {reading}."]],
    },
    faults: [
      {
        id: "pipeline-low",
        wrong: "A pipeline's pressure was low.",
        harm: "The machine starves, and so do the other rooms on this zone.",
        truth: { kind: "number", reading: byScheme([34, 42, "psi"], [230, 300, "kPa"]) },
        acts: [["Cylinders shut, read the gauge", "It shows {reading}."]],
      },
    ],
  },
  {
    item: "oxygen-in-air",
    healthy: {
      truth: { kind: "number", reading: inBoth(20.8, 21.3, "%") },
      acts: [
        ["Take the sensor out into the room and wait", "The figure stands still."],
        ["Calibrate and read", "It shows {reading}."],
      ],
    },
    faults: [
      {
        id: "sensor-drifts",
        wrong: "The oxygen sensor would not come down to 21 % in air.",
        harm: "The last guard against a hypoxic mixture reads too high.",
        truth: { kind: "number", reading: inBoth(24.5, 28, "%") },
        acts: [
          ["Take the sensor out into the room and wait", "The figure stands still."],
          ["Calibrate and read", "The calibration ends with a beep. It shows {reading}."],
        ],
      },
    ],
  },
  {
    item: "low-oxygen-alarm",
    healthy: right(
      ["Set its limit above the reading", "It sounds at once."],
      ["Set it back", "Silent; the limit stands at 30 %."],
    ),
    faults: [
      wrong("low-oxygen-alarm-silent", "The low-oxygen alarm was silent.", "Nobody watches the number all the time.", [
        "Set its limit above the reading",
        "The figure blinks. Nothing is to be heard.",
      ]),
    ],
  },
];
