import { inBoth, right, type Script, wrong } from "@/lib/domain/rehearsal-script";

/** From the flow controls to the common gas outlet, and the absorbent. The sights are common practice, no source. */
export const GAS_SCRIPTS: readonly Script[] = [
  {
    item: "vaporizer-fill",
    healthy: {
      truth: { kind: "choice", choice: "three-quarters" },
      acts: [["Look at eye height", "The liquid stands at three quarters of the glass."]],
    },
    faults: [],
  },
  {
    item: "vaporizer-interlock",
    healthy: right(["Turn one on, try the other", "The other stays locked."], ["Turn all off", "All stand at zero."]),
    faults: [
      wrong(
        "interlock-fails",
        "Two vaporizers could be turned on at once.",
        "Two agents at once are an overdose.",
        ["Turn one on, try the other", "The other turns as well, to 3 %."],
        ["Turn all off", "All stand at zero."],
      ),
    ],
  },
  {
    item: "low-pressure-leak",
    healthy: {
      truth: { kind: "timed", held: true, seconds: 14 },
      acts: [
        ["Machine off, flows shut, squeeze the bulb flat on the outlet", "It lies flat."],
        ["Watch it until the time is over", "It stays flat, for 14 s and more."],
        ["The same with each vaporizer on", "It stays flat with each of them."],
      ],
    },
    faults: [
      {
        id: "leak-with-vaporizer-on",
        wrong: "A vaporizer leaked: seen only with it turned on.",
        harm: "Agent and gas leave the machine, and the patient may be awake.",
        truth: { kind: "timed", held: false, seconds: 4 },
        acts: [
          ["Machine off, flows shut, squeeze the bulb flat on the outlet", "It lies flat."],
          ["Watch it until the time is over", "It stays flat, for 14 s and more."],
          ["The same with each vaporizer on", "With the second one on it fills within 4 s."],
        ],
      },
    ],
  },
  {
    item: "fresh-gas-hose",
    healthy: right(["Push it on and lock it", "It clicks."], ["Tug", "It holds."]),
    faults: [
      wrong(
        "fresh-gas-hose-loose",
        "The fresh-gas hose did not lock.",
        "The patient gets no fresh gas once it slips off.",
        ["Push it on and lock it", "It goes on."],
        ["Tug", "It comes off in your hand."],
      ),
    ],
  },
  {
    item: "hypoxic-guard",
    healthy: right(
      ["Nitrous oxide up", "Oxygen rises with it."],
      ["Oxygen down", "Nitrous oxide falls with it; oxygen stays at 28 %."],
    ),
    faults: [
      wrong(
        "hypoxic-guard-fails",
        "The hypoxic guard let oxygen fall below a quarter.",
        "A turned knob gives a patient too little oxygen.",
        ["Nitrous oxide up", "Oxygen rises with it."],
        ["Oxygen down", "Nitrous oxide stays where it is; oxygen falls to 15 %."],
      ),
    ],
  },
  {
    item: "oxygen-flush",
    healthy: right(["Press it", "A strong flow."], ["Let go", "It stops at once."]),
    faults: [
      wrong(
        "flush-sticks",
        "The oxygen flush stuck open.",
        "It overfills lungs and washes the agent out.",
        ["Press it", "A strong flow."],
        ["Let go", "The button stays in; the flow goes on until you pull it out."],
      ),
    ],
  },
  {
    item: "oxygen-after-flush",
    healthy: {
      truth: { kind: "number", reading: inBoth(96, 99, "%") },
      acts: [["Sensor back in, flush until it stands still", "It shows {reading}."]],
    },
    faults: [
      {
        id: "not-oxygen",
        wrong: "What came as oxygen was not.",
        harm: "Crossed pipes: every breath is hypoxic, and the gauge shows good pressure.",
        truth: { kind: "number", reading: inBoth(38, 66, "%") },
        acts: [["Sensor back in, flush until it stands still", "It rises slowly, and stands at {reading}."]],
      },
    ],
  },
  {
    item: "outlet-selector",
    healthy: right(["Look at lever and screen", "Both say: circle system."]),
    faults: [
      wrong(
        "outlet-selector-wrong",
        "The gas-outlet selector stood at the other outlet.",
        "The circuit gets no fresh gas.",
        ["Look at lever and screen", "The lever points to the auxiliary outlet; the screen shows the circle in grey."],
      ),
    ],
  },
  {
    item: "absorbent-colour",
    healthy: {
      truth: { kind: "choice", choice: "quarter" },
      acts: [["Look through the wall, all round", "A rim of colour at the top, less than a quarter."]],
    },
    faults: [
      {
        id: "absorbent-spent",
        wrong: "The absorbent was spent, on the side away from you.",
        harm: "Carbon dioxide goes back to the patient.",
        truth: { kind: "choice", choice: "all" },
        acts: [
          ["Look through the wall", "From the front: white, with a rim of colour."],
          ["Look all round", "At the back it is coloured from top to bottom."],
        ],
      },
    ],
  },
];
